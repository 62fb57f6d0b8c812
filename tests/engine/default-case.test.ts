import { describe, expect, test } from 'vitest';
import { assumptionsFor, defaultCase } from '../../src/engine/default-case.ts';
import { cause, family, knowledge } from './tiny-knowledge.ts';

const trait = (id: string, values: Record<string, number>) => ({ id, title: id, values, ageing: {} });
const facts = (ignition: Record<string, number>, causes = { pair: 0.3, leads: 0.5, any: 0.1 }) =>
  knowledge({
    families: [family('misfire', causes), family('air', { pump: 0.9 }, { needs: { pump: ['fitted'] } })],
    causes: {
      pair: cause({ needs: { ignition: ['pair'] } }),
      leads: cause({ needs: { ignition: ['leads'] } }),
      any: cause(),
      pump: cause(),
    },
    codes: { P0300: { family: 'misfire' }, P0411: { family: 'air' }, P0174: { family: 'misfire', bank: 2 } },
    rest: {
      traits: {
        ignition: trait('ignition', ignition),
        pump: trait('pump', { fitted: 0.2, none: 0.8 }),
        layout: trait('layout', { inline: 0.7, v: 0.25, flat: 0.05 }),
        fuel: trait('fuel', { port: 0.9, direct: 0.1 }),
      },
    },
  });

describe('what a page about a code takes for granted of the engine', () => {
  test('the value that is commonest, weighed by how much of the tree exists with it', () => {
    // leads: .45 x (.5 + .1) = .27; pair: .55 x (.3 + .1) = .22.
    expect(assumptionsFor(['P0300'], facts({ pair: 0.55, leads: 0.45 }))).toEqual([
      { trait: 'ignition', value: 'leads', probability: expect.closeTo(0.27 / 0.49, 9) },
    ]);
  });
  test('nothing where no value is clearly commonest', () => {
    // Three alike: each has a third.
    expect(assumptionsFor(['P0300'], facts({ pair: 0.34, leads: 0.33, coil: 0.33 }, { pair: 0.3, leads: 0.3, any: 0.3 }))).toEqual([]);
  });
  test('half is enough', () => {
    const even = facts({ pair: 0.5, leads: 0.5 }, { pair: 0.3, leads: 0.3, any: 0.3 });
    expect(assumptionsFor(['P0300'], even)).toEqual([{ trait: 'ignition', value: 'pair', probability: 0.5 }]);
  });
  test('traits that no cause asks for stay open, however common a value is', () => {
    expect(assumptionsFor(['P0300'], facts({ pair: 0.1, leads: 0.9 })).map(({ trait: id }) => id)).toEqual(['ignition']);
  });
  test('what a code proves is taken, however rare it is', () => {
    expect(assumptionsFor(['P0411'], facts({ pair: 0.5, leads: 0.5 }))).toEqual([{ trait: 'pump', value: 'fitted', probability: 1 }]);
    expect(assumptionsFor(['P0174'], facts({ pair: 0.9, leads: 0.1 })).find(({ trait: id }) => id === 'layout')).toEqual({
      trait: 'layout',
      value: 'v',
      probability: expect.closeTo(0.25 / 0.3, 9),
    });
  });
  test('unknown codes ask for nothing', () => {
    expect(assumptionsFor(['P9999'], facts({ pair: 0.5, leads: 0.5 }))).toEqual([]);
  });
});

test('the case of a code is the code and what is taken for granted', () => {
  expect(defaultCase(['P0300'], facts({ pair: 0.55, leads: 0.45 }))).toEqual({ codes: ['P0300'], engine: { ignition: 'leads' } });
  expect(defaultCase(['P9999'], facts({ pair: 0.5, leads: 0.5 }))).toEqual({ codes: ['P9999'], engine: {} });
});
