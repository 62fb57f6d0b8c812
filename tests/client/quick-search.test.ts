import { describe, expect, test } from 'vitest';
import { readContent } from '../../scripts/content/read.ts';
import { edits } from '../../src/client/nearest-words.ts';
import { quickSearcher } from '../../src/client/quick-search.ts';
import { structureSentence, typedCodes } from '../../src/client/typed-codes.ts';
import { catalogueOf } from '../../src/compile/catalogue.ts';
import { quickIndex } from '../../src/compile/quick-index.ts';
import { compileKnowledge } from '../../src/model/compile-knowledge.ts';
import { loadContent } from '../../src/model/load.ts';

const { content } = loadContent(readContent('.').files);
const search = quickSearcher(quickIndex(catalogueOf(content, compileKnowledge(content, 'test'))));
const first = (question: string) => search(question, 5).map((hit) => hit.entry[2]);

describe('the small list', () => {
  test.each([
    ['shakes at a stop light', '/symptoms/shakes-at-stop-light/'],
    ['shaks at stoplight lumpy idle', '/symptoms/shakes-at-stop-light/'],
    ['engine vibrates at idle', '/symptoms/shakes-at-stop-light/'],
    ['rough idel', '/symptoms/shakes-at-stop-light/'],
    ['smells of rotten eggs', '/symptoms/smells-of-rotten-egg/'],
    ['torque wrench', '/tools/torque-wrench/'],
  ])('answers "%s" with %s among the first five', (question, href) => {
    expect(first(question)).toContain(href);
  });

  test('answers nothing to nonsense', () => {
    expect(first('zzqqxxyy')).toEqual([]);
    expect(first('')).toEqual([]);
  });

  test('answers in a few milliseconds', () => {
    const runs = Array.from({ length: 20 }, () => {
      const before = performance.now();
      search('shaks at a stop lite when cold', 8);
      return performance.now() - before;
    }).sort((a, b) => a - b);
    expect(runs[10]).toBeLessThan(50);
  });
});

describe('typed codes', () => {
  test('are found among words, each once, in any case', () => {
    const { codes, rest } = typedCodes('p0301, P0302 p0301 shakes cold');
    expect(codes.map(({ code }) => code)).toEqual(['P0301', 'P0302']);
    expect(rest).toBe('shakes cold');
  });

  test('say who defines them', () => {
    expect(structureSentence(typedCodes('P1234').codes[0]!)).toContain('defined by the maker');
    expect(structureSentence(typedCodes('P0301').codes[0]!)).toContain('SAE J2012');
  });
});

test('edits count insertions, losses, changes and swapped neighbours', () => {
  expect([edits('idel', 'idle', 2), edits('shaks', 'shakes', 2), edits('kitten', 'sitting', 3), edits('a', 'abcd', 2)]).toEqual([
    1, 1, 3, 3,
  ]);
});
