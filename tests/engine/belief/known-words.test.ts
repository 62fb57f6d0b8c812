import { describe, expect, test } from 'vitest';
import { inKnownWords } from '../../../src/engine/belief/known-words.ts';
import type { Case } from '../../../src/engine/case.ts';
import { cause, check, family, knowledge } from '../tiny-knowledge.ts';

const facts = knowledge({
  families: [family('f', { coil: 0.9 })],
  causes: { coil: cause() },
  checks: [check('look', { coil: 0.8 }, 0.1)],
  codes: { P0300: { family: 'f' } },
  rest: {
    traits: { ignition: { id: 'ignition', title: 'Ignition', values: { coil: 0.6, leads: 0.4 }, ageing: {} } },
    symptoms: { shakes: { id: 'shakes', title: 'Shakes', otherwise: 0.1 } },
    conditions: { rain: { id: 'rain', title: 'Rain', otherwise: 0.1, freezeFrame: {} } },
    parts: { plug: { id: 'plug', title: 'Plug', price: { low: 1, high: 2 }, earlyFailure: 0.05, work: null } },
    recentWork: { plugs: { id: 'plugs', title: 'Plugs' } },
  },
});
const known: Case = {
  codes: ['P0300'],
  engine: { cylinders: 4, firingOrder: [1, 3, 4, 2], ignition: 'coil', recentWork: ['plugs'] },
  symptoms: { shakes: 'present' },
  conditions: { rain: 'absent' },
  replaced: ['plug', 'coil'],
  results: [{ check: 'look', outcome: 'bad' }],
  repaired: ['coil'],
  hourlyRate: 30,
};

describe('a case in words of the knowledge', () => {
  test('stays as it is when it has no others', () => expect(inKnownWords(known, facts)).toEqual(known));
  test('gains no entry that it did not have', () => expect(inKnownWords({}, facts)).toEqual({}));

  // Every object in JavaScript answers to "constructor"; saved jobs and links come from strangers.
  test.each(['unheard-of', 'constructor', 'toString', '__proto__'])('loses "%s" wherever it stands, and nothing beside it', (word) => {
    const more: Case = {
      ...known,
      codes: ['P0300', word],
      engine: { ...known.engine, recentWork: ['plugs', word] },
      symptoms: Object.fromEntries([['shakes', 'present'] as const, [word, 'present'] as const]),
      conditions: Object.fromEntries([['rain', 'absent'] as const, [word, 'present'] as const]),
      replaced: ['plug', word, 'coil'],
      results: [
        { check: word, outcome: 'bad' },
        { check: 'look', outcome: 'bad' },
      ],
      repaired: [word, 'coil'],
    };
    expect(inKnownWords(more, facts)).toEqual(known);
  });
  test.each(['unheard-of', 'constructor'])('loses the trait "%s", and a trait whose value it is', (word) => {
    expect(inKnownWords({ engine: { [word]: 'coil', cylinders: 4 } }, facts)).toEqual({ engine: { cylinders: 4 } });
    expect(inKnownWords({ engine: { ignition: word, cylinders: 4 } }, facts)).toEqual({ engine: { cylinders: 4 } });
  });
});
