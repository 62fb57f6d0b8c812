import type { Path } from '../document.ts';
import type { Content } from '../schema/index.ts';
import type { Rule } from './rule.ts';

const longestSentence = 30;

const stepsOf = (
  content: Content,
): readonly { kind: 'causes' | 'checks' | 'set-ups' | 'cautions'; id: string; path: Path; text: string }[] => {
  const each = (kind: 'causes' | 'checks' | 'set-ups' | 'cautions', id: string, path: Path, texts: readonly string[]) =>
    texts.map((text, index) => ({ kind, id, path: [...path, index], text }));
  return [
    ...[...content.causes].flatMap(([id, cause]) => each('causes', id, ['repair', 'steps'], cause.repair.steps)),
    ...[...content.checks].flatMap(([id, check]) => each('checks', id, ['steps'], check.steps)),
    ...[...content['set-ups']].flatMap(([id, setUp]) => each('set-ups', id, ['steps'], setUp.steps)),
    ...[...content.cautions].flatMap(([id, caution]) => each('cautions', id, ['avoid'], caution.avoid)),
  ];
};

/** Steps are read with dirty hands and one eye on the engine. */
export const shortSentences: Rule = {
  code: 'long-sentence',
  severity: 'warning',
  check: ({ content }, report) => {
    for (const { kind, id, path, text } of stepsOf(content)) {
      const longest = Math.max(...text.split(/[.!?;:]\s+/).map((sentence) => sentence.trim().split(/\s+/).length));
      if (longest > longestSentence)
        report(
          kind,
          id,
          path,
          `A sentence of this step has ${longest} words; at most ${longestSentence} are easy to follow.`,
          'Say it in two sentences, or in two steps.',
        );
    }
  },
};
