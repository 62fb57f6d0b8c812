/**
 * npm run prove -- [FAMILY ...] [--nodes 300] [--seconds 120] [--again]: plans every distinct problem of each family with
 * a long budget and keeps the better of the result and what is kept already in content/certificates/FAMILY.json. A
 * certificate is used for exactly the model that it was made for. What is kept from as many nodes is left as it is;
 * `--again` plans it anew, for a planner that has got better. `--seconds` bounds each plan, at the price that another
 * machine may stop elsewhere. Exit code 2 on wrong use.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { defaultCase } from '../src/engine/default-case.ts';
import { formulate } from '../src/engine/formulate.ts';
import { type Certificate, certify, modelFingerprint, plan, planFrom, type TroubleshootingModel } from '../src/engine/plan/index.ts';
import { certificateFolder, readCertificates } from '../src/kept/certificates.ts';
import { knowledgeOrExit } from './content/knowledge.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { nodes: { type: 'string', default: '300' }, seconds: { type: 'string' }, again: { type: 'boolean', default: false } },
});
const { knowledge } = knowledgeOrExit();
const unknown = positionals.filter((family) => !knowledge.families[family]);
if (unknown.length > 0) {
  console.error(`No such family: ${unknown.join(', ')}. There are: ${Object.keys(knowledge.families).sort().join(', ')}.`);
  process.exit(2);
}
mkdirSync(certificateFolder, { recursive: true });
for (const family of positionals.length > 0 ? positionals : Object.keys(knowledge.families).sort()) prove(family);

/** Proves each distinct problem of a family; certificates of models that no code leads to any more are dropped. */
function prove(family: string): void {
  const file = `${certificateFolder}/${family}.json`;
  const before = new Map(readCertificates(file).map((certificate) => [certificate.model, certificate]));
  const models = new Map<string, { readonly code: string; readonly model: TroubleshootingModel }>();
  for (const { id } of Object.values(knowledge.codes).filter((facts) => facts.family === family)) {
    const { model } = formulate(defaultCase([id], knowledge), knowledge);
    const fingerprint = modelFingerprint(model);
    if (!models.has(fingerprint)) models.set(fingerprint, { code: id, model });
  }
  const certificates: Certificate[] = [];
  for (const [fingerprint, { code, model }] of models) {
    const kept = before.get(fingerprint);
    certificates.push(kept && isEnough(kept, model) ? kept : better(model, kept, proved(`${family} ${code}`, model)));
    // Written after each, so that a long run that is stopped keeps what it has.
    const waiting = [...before.values()].filter(
      ({ model: other }) => models.has(other) && !certificates.some((made) => made.model === other),
    );
    writeFileSync(file, `${JSON.stringify([...certificates, ...waiting], null, 1)}\n`);
  }
}

function isEnough(kept: Certificate, model: TroubleshootingModel): boolean {
  const made = values.again ? null : planFrom(kept, model);
  return made !== null && (made.gap === 0 || made.nodes >= Number(values.nodes));
}

function proved(name: string, model: TroubleshootingModel): Certificate {
  const limit = values.seconds === undefined ? Number.POSITIVE_INFINITY : Number(values.seconds);
  const start = performance.now();
  const elapsed = (): number => (performance.now() - start) / 1000;
  const made = plan(model, { nodes: Number(values.nodes), stop: () => elapsed() > limit });
  const gap = `${(100 * made.gap).toFixed(1)} %`;
  console.log(
    `${name} (${model.prior.length} x ${model.checks.length}): cost ${made.expectedCost.toFixed(2)}, bound ${made.lowerBound.toFixed(2)}, gap ${gap}, ${made.nodes} nodes, ${elapsed().toFixed(1)} s`,
  );
  return certify(model, made);
}

/** The cheaper policy with the greater bound: both hold for the same model. */
function better(model: TroubleshootingModel, before: Certificate | undefined, now: Certificate): Certificate {
  if (!before || !planFrom(before, model)) return now;
  const cheaper = before.expectedCost < now.expectedCost ? before : now;
  return { ...cheaper, lowerBound: Math.min(cheaper.expectedCost, Math.max(before.lowerBound, now.lowerBound)) };
}
