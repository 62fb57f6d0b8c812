import { describe, expect, test } from 'vitest';
import { belief } from '../../../src/engine/belief/index.ts';
import { chanceRepairWasRight } from '../../../src/engine/proof/repair-belief.ts';
import { cause, family, knowledge } from '../tiny-knowledge.ts';

const facts = knowledge({
  families: [family('f', { coil: 0.6, plug: 0.3 })],
  causes: { coil: cause({ repair: { holds: 0.9, alsoFixes: { plug: 0.2 } } }), plug: cause({ repair: { holds: 0.5 } }) },
  codes: { P0001: { family: 'f' } },
});
const now = belief({ codes: ['P0001'] }, facts);

describe('how likely a repair has removed the fault', () => {
  test('its own cause by how well it holds, and others as far as it reaches them', () => {
    expect(chanceRepairWasRight(now, 'coil', facts)).toBeCloseTo(0.6 * 0.9 + 0.3 * 0.2, 12);
  });
  test('nothing of what it does not reach, and nothing of none of these', () => {
    expect(chanceRepairWasRight(now, 'plug', facts)).toBeCloseTo(0.3 * 0.5, 12);
  });
  test('no repair of that name, no chance', () => expect(chanceRepairWasRight(now, 'unheard-of', facts)).toBe(0));
});
