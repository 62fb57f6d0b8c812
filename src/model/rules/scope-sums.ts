import type { Rule } from './rule.ts';

export const scopeSums: Rule = {
  code: 'scope-does-not-sum',
  severity: 'error',
  check: ({ content }, report) => {
    for (const [id, cause] of content.causes) {
      if (typeof cause.scope === 'string') continue;
      const sum = Object.values(cause.scope).reduce((total, share) => total + share, 0);
      if (Math.abs(sum - 1) > 0.0051)
        report('causes', id, ['scope'], `The scopes sum to ${Number(sum.toFixed(4))}.`, 'Make them sum to 1.', { atKey: true });
    }
  },
};
