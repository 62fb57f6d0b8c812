import type { Rule } from './rule.ts';

export const codesOnce: Rule = {
  code: 'code-twice',
  severity: 'error',
  check: ({ content }, report) => {
    const seen = new Map<string, string>();
    for (const [id, group] of content.codes) {
      for (const code of Object.keys(group.codes)) {
        const other = seen.get(code);
        if (other)
          report('codes', id, ['codes', code], `${code} stands in content/codes/${other}.yaml too.`, 'Keep it in one group.', {
            atKey: true,
          });
        else seen.set(code, id);
      }
    }
  },
};
