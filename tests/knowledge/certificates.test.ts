import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { knowledgeOrExit } from '../../scripts/content/knowledge.ts';
import { defaultCase } from '../../src/engine/default-case.ts';
import { formulate } from '../../src/engine/formulate.ts';
import { evaluatePolicy, modelFingerprint, plan, planFrom, type TroubleshootingModel } from '../../src/engine/plan/index.ts';
import { certificateFolder, readCertificates } from '../../src/kept/certificates.ts';

const { knowledge } = knowledgeOrExit();
const certificates = new Map(
  readdirSync(certificateFolder)
    .filter((name) => name.endsWith('.json'))
    .flatMap((name) => readCertificates(`${certificateFolder}/${name}`))
    .map((certificate) => [certificate.model, certificate]),
);
const models = new Map<string, TroubleshootingModel>();
for (const code of Object.keys(knowledge.codes)) {
  const { model } = formulate(defaultCase([code], knowledge), knowledge);
  models.set(modelFingerprint(model), model);
}
const fitting = [...models].filter(([fingerprint]) => certificates.has(fingerprint));

describe('certificates of long plans', () => {
  test('each that fits a problem of today certifies a policy that costs what it says, above its bound', () => {
    for (const [fingerprint, model] of fitting) {
      const certified = planFrom(certificates.get(fingerprint)!, model);
      expect(certified).not.toBeNull();
      expect(certified!.expectedCost).toBeCloseTo(evaluatePolicy(model, certified!.policy), 6);
      expect(certified!.lowerBound).toBeLessThanOrEqual(certified!.expectedCost * (1 + 1e-9));
    }
  });

  test('the smallest is proved anew: the same budget finds a bound as high and a policy no dearer', () => {
    const smallest = [...models].sort((a, b) => a[1].prior.length * a[1].checks.length - b[1].prior.length * b[1].checks.length)[0]!;
    const certificate = certificates.get(smallest[0]);
    // After a change of content it has lapsed until `npm run prove` is run: the problem itself is proved all the same.
    const again = plan(smallest[1], { nodes: certificate?.nodes ?? 100 });
    expect(again.lowerBound).toBeLessThanOrEqual(again.expectedCost);
    if (certificate) {
      expect(again.lowerBound).toBeGreaterThanOrEqual(certificate.lowerBound * (1 - 1e-6));
      expect(again.expectedCost).toBeLessThanOrEqual(certificate.expectedCost * (1 + 1e-6));
    }
  });
});
