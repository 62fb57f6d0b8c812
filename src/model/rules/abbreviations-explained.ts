import { kinds } from '../schema/index.ts';
import { textsOf } from './prose.ts';
import type { Rule } from './rule.ts';

/** Words in capitals that need no entry: signal words, and what everyone reads without help. */
const plain = new Set(['DANGER', 'WARNING', 'CAUTION', 'NOTICE', 'OK', 'AND', 'OR', 'NOT', 'LED', 'AC', 'DC', 'US', 'ON', 'OFF', 'UV']);
const abbreviation = /(?<![\p{L}\p{N}-])[A-Z]{2,6}(?![\p{L}\p{N}-])/gu;

/** An abbreviation is the title of a term or one of its other forms, or a name that a source carries (SAE, ISO). */
export const abbreviationsExplained: Rule = {
  code: 'term-undefined',
  severity: 'warning',
  wants: ['terms', 'sources'],
  check: ({ content }, report) => {
    const known = new Set(plain);
    const learn = (text: string) => {
      for (const [word] of text.matchAll(abbreviation)) known.add(word);
    };
    for (const term of content.terms.values()) for (const form of [term.title, ...term.also]) learn(form.toUpperCase());
    for (const source of content.sources.values()) learn(`${source.title} ${source.publisher ?? ''}`);
    for (const kind of kinds) {
      if (kind === 'terms' || kind === 'sources') continue;
      for (const [id, file] of content[kind]) {
        const reported = new Set<string>();
        for (const { path, text } of textsOf(file)) {
          for (const [word] of text.matchAll(abbreviation)) {
            if (known.has(word) || reported.has(word)) continue;
            reported.add(word);
            report(
              kind,
              id,
              path,
              `"${word}" is not explained in content/terms/.`,
              'Write the word out, or give it a term whose title or "also" has it.',
            );
          }
        }
      }
    }
  },
};
