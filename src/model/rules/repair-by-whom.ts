import type { Rule } from './rule.ts';

export const testRepairIsOwn: Rule = {
  code: 'test-repair-by-professional',
  severity: 'error',
  check: ({ content }, report) => {
    for (const [id, cause] of content.causes)
      if (cause.repair.tryAsTest && cause.repair.professionalOnly)
        report(
          'causes',
          id,
          ['repair', 'tryAsTest'],
          'The repair is to be tried as a test, and only by a professional.',
          'Set one of the two to false.',
          { atKey: true },
        );
  },
};
