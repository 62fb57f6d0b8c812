import { describe, expect, it } from 'vitest';
import { certify, planFrom } from '../../../src/engine/plan/certificate.ts';
import { plan } from '../../../src/engine/plan/index.ts';
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
