import { describe, expect, it } from 'vitest';
import { certify, decodePolicy, encodePolicy, modelFingerprint, planFrom } from '../../../src/engine/plan/certificate.ts';
import { type PolicyNode, plan, type TroubleshootingModel } from '../../../src/engine/plan/index.ts';
import { bareCheck, bareModel, bareRepair } from './bare-model.ts';
import { bruteForce } from './brute-force.ts';
import { seeded } from './seeded.ts';
import { smallModel } from './small-model.ts';

describe('a certificate', () => {
  it('gives back the plan that it was made from, policy and all', () => {
    for (let start = 1; start <= 100; start++) {
      const model = smallModel(seeded(start));
      const made = plan(model, { nodes: 20_000 });
      const kept = JSON.parse(JSON.stringify(certify(model, made)));
      const back = planFrom(kept, model);
      expect(back?.policy).toEqual(made.policy);
      expect(back?.expectedCost).toBeCloseTo(bruteForce(model), 7);
      expect(back?.gap).toBeLessThan(1e-9);
    }
  });

  it('holds for no other model, however small the difference', () => {
    const model = smallModel(seeded(4));
    const certificate = certify(model, plan(model, { nodes: 1000 }));
    expect(planFrom(certificate, { ...model, handOverCost: model.handOverCost + 1e-9 })).toBeNull();
  });

  it('certifies nothing when its policy was tampered with or costs something else', () => {
    const model = smallModel(seeded(4));
    const certificate = certify(model, plan(model, { nodes: 1000 }));
    expect(planFrom({ ...certificate, policy: 'h' }, model)).toBeNull();
    expect(planFrom({ ...certificate, policy: `${certificate.policy} h` }, model)).toBeNull();
    expect(planFrom({ ...certificate, expectedCost: certificate.expectedCost * 0.99 }, model)).toBeNull();
    expect(planFrom({ ...certificate, lowerBound: certificate.expectedCost * 1.01 }, model)).toBeNull();
  });
});

/** One of each: a check with two results behind a set-up, a repair that wants the engine warm. */
const MODEL: TroubleshootingModel = {
  ...bareModel,
  prior: [0.5, 0.5],
  setUpCosts: [5],
  warmUpCost: 3,
  handOverCost: 100,
  checks: [{ ...bareCheck('look', 2, [[0.8, 0.2], [0.1, 0.9]]), setUps: [0] }], // biome-ignore format: a matrix
  repairs: [{ ...bareRepair('hose', 10, [1, 0.5]), engineState: 'warm', setUps: [0] }],
};
const POLICY: PolicyNode = {
  kind: 'check',
  action: 0,
  cost: 7,
  next: [
    { kind: 'repair', action: 0, cost: 13, next: { kind: 'hand-over', cost: 100 } },
    { kind: 'hand-over', cost: 100 },
  ],
};

describe('a policy as words', () => {
  it('is written node before branches, and read with costs from the model', () => {
    expect(encodePolicy(POLICY)).toBe('c0 r0 h h');
    expect(decodePolicy('c0 r0 h h', MODEL)).toEqual(POLICY);
    expect(encodePolicy(null)).toBe('-');
    expect(decodePolicy('c0 r0 - h', MODEL)).toMatchObject({ next: [{ kind: 'repair', next: null }, { kind: 'hand-over' }] });
  });

  it('is refused with a word too many or too few, with an unknown number, and when it is nothing', () => {
    for (const text of ['c0 r0 h', 'c0 r0 h h h', 'c7 h h', 'r7 h', '-', '', 'c0 rx h h']) {
      expect(() => decodePolicy(text, MODEL), text).toThrow();
    }
    expect(() => decodePolicy('-', MODEL)).toThrow('not a policy');
    expect(() => decodePolicy('h h', MODEL)).toThrow('not a policy');
    expect(() => decodePolicy('h', { ...MODEL, prior: [0, 0] })).toThrow('not a policy');
  });
});

describe('the fingerprint of a model', () => {
  // Certificates in the repository carry these: a change would void them all.
  it('is what it was when the first certificate was made', () => {
    expect(modelFingerprint(MODEL)).toBe('15f9201244ac5b1e0640230da7ff');
  });

  it('changes with every number and every list, and not with names', () => {
    const [check] = MODEL.checks;
    const [repair] = MODEL.repairs;
    if (!check || !repair) throw new Error('no actions');
    const others: TroubleshootingModel[] = [
      { ...MODEL, prior: [0.4, 0.6] },
      { ...MODEL, setUpCosts: [6] },
      { ...MODEL, handOverCost: 101 },
      { ...MODEL, coolDownCost: 1 },
      { ...MODEL, warmUpCost: 4 },
      { ...MODEL, startsWarm: true },
      { ...MODEL, setUpsDone: [0] },
      { ...MODEL, checksDone: [0] },
      { ...MODEL, repairsTried: [0] },
      ...[
        { cost: 3 },
        { setUps: [] },
        { after: [0] },
        { engineState: 'warm' as const },
        { likelihood: [[0.8, 0.2], [0.2, 0.8]] }, // biome-ignore format: a matrix
        { repeats: true },
        { maxPerformances: 2 },
      ].map((change) => ({ ...MODEL, checks: [{ ...check, ...change }] })),
      ...[{ cost: 11 }, { setUps: [] }, { after: [0] }, { engineState: 'cold' as const }, { fixes: [1, 0.6] }, { spoils: [0] }].map(
        (change) => ({ ...MODEL, repairs: [{ ...repair, ...change }] }),
      ),
    ];
    const all = [MODEL, ...others].map(modelFingerprint);
    expect(new Set(all).size).toBe(all.length);
    expect(all.every((fingerprint) => /^[0-9a-f]{28}$/.test(fingerprint))).toBe(true);
    expect(modelFingerprint({ ...MODEL, checks: [{ ...check, id: 'another name' }] })).toBe(all[0]);
  });
});

describe('what a certificate says', () => {
  it('is worked out anew: cost and gap; only the bound is taken on trust', () => {
    const made = { policy: POLICY, expectedCost: 80.35, lowerBound: 60, gap: 0.339, nodes: 17 };
    const certificate = certify(MODEL, made);
    expect(certificate).toMatchObject({ expectedCost: 80.35, lowerBound: 60, nodes: 17, policy: 'c0 r0 h h' });
    // By hand 70.35: what the plan above claims to cost is written down, but not believed when it is read.
    expect(planFrom(certificate, MODEL)).toBeNull();
    const truly = 7 + 0.45 * 13 + 0.025 * 100 + 0.55 * 100;
    const back = planFrom({ ...certificate, expectedCost: truly }, MODEL);
    expect(back).toMatchObject({ policy: POLICY, lowerBound: 60, nodes: 17 });
    expect(back?.expectedCost).toBeCloseTo(truly, 12);
    expect(back?.gap).toBeCloseTo((truly - 60) / 60, 12);
    // Within a millionth the cost is the same; the bound may be above by rounding alone, and the gap is then nothing.
    expect(planFrom({ ...certificate, expectedCost: truly * (1 + 0.9e-6) }, MODEL)).not.toBeNull();
    expect(planFrom({ ...certificate, expectedCost: truly * (1 + 1.1e-6) }, MODEL)).toBeNull();
    expect(planFrom({ ...certificate, expectedCost: truly, lowerBound: truly * (1 + 1e-10) }, MODEL)?.gap).toBe(0);
    expect(planFrom({ ...certificate, expectedCost: truly, lowerBound: truly * (1 + 1e-8) }, MODEL)).toBeNull();
  });

  it('lapses with another version of the proof', () => {
    const certificate = certify(MODEL, { policy: POLICY, expectedCost: 70.35, lowerBound: 60, gap: 0.17, nodes: 1 });
    expect(planFrom(certificate, MODEL)).not.toBeNull();
    expect(planFrom({ ...certificate, proofVersion: certificate.proofVersion - 1 }, MODEL)).toBeNull();
  });
});
