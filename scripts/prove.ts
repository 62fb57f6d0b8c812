/**
 * npm run prove -- [FAMILY ...] [--nodes 20000] [--seconds 120] [--all-codes]: plans each family with a long budget and
 * keeps the better of the result and what is kept already in certificates/FAMILY.json. A certificate is used for exactly
 * the model that it was made for; `--seconds` bounds each plan, at the price that another machine may stop elsewhere.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { formulate } from '../src/engine/formulate.ts';
import { type Certificate, certify, modelFingerprint, plan, planFrom, type TroubleshootingModel } from '../src/engine/plan/index.ts';
import { knowledgeOrExit } from './content/knowledge.ts';

const FOLDER = 'certificates';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    nodes: { type: 'string', default: '20000' },
    seconds: { type: 'string' },
    'all-codes': { type: 'boolean', default: false },
  },
});

const { knowledge } = knowledgeOrExit();
const unknown = positionals.filter((family) => !knowledge.families[family]);
if (unknown.length > 0) {
  console.error(`No such family: ${unknown.join(', ')}. There are: ${Object.keys(knowledge.families).sort().join(', ')}.`);
  process.exit(2);
}

mkdirSync(FOLDER, { recursive: true });
for (const family of positionals.length > 0 ? positionals : Object.keys(knowledge.families).sort()) prove(family);

function prove(family: string): void {
  const file = `${FOLDER}/${family}.json`;
  const kept: Certificate[] = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : [];
  const models = new Map<string, TroubleshootingModel>();
  for (const code of Object.values(knowledge.codes).filter((facts) => facts.family === family)) {
    const { model } = formulate({ codes: [code.id] }, knowledge);
    models.set(modelFingerprint(model), model);
    if (!values['all-codes']) break;
  }
  const certificates: Certificate[] = [];
  for (const [fingerprint, model] of models) {
    const before = kept.find((certificate) => certificate.model === fingerprint);
    certificates.push(better(model, before, proved(family, model)));
  }
  // Those of other codes stay while their model is still one of the family's; the rest can never be used again.
  const current = new Set(
    Object.values(knowledge.codes)
      .filter((facts) => facts.family === family)
      .map((code) => modelFingerprint(formulate({ codes: [code.id] }, knowledge).model)),
  );
  for (const certificate of kept) if (current.has(certificate.model) && !models.has(certificate.model)) certificates.push(certificate);
  writeFileSync(file, `${JSON.stringify(certificates, null, 1)}\n`);
}

function proved(family: string, model: TroubleshootingModel): Certificate {
  const limit = values.seconds === undefined ? Number.POSITIVE_INFINITY : Number(values.seconds);
  const start = performance.now();
  const elapsed = (): number => (performance.now() - start) / 1000;
  const made = plan(model, { nodes: Number(values.nodes), stop: () => elapsed() > limit });
  const size = `${model.prior.length} x ${model.checks.length}`;
  const gap = `${(100 * made.gap).toFixed(2)} %`;
  console.log(
    `${family} (${size}): cost ${made.expectedCost.toFixed(2)}, bound ${made.lowerBound.toFixed(2)}, gap ${gap}, ${made.nodes} nodes, ${elapsed().toFixed(0)} s`,
  );
  return certify(model, made);
}

/** The cheaper policy with the greater bound: both hold for the same model. */
function better(model: TroubleshootingModel, before: Certificate | undefined, now: Certificate): Certificate {
  if (!before || !planFrom(before, model)) return now;
  const cheaper = before.expectedCost < now.expectedCost ? before : now;
  return { ...cheaper, lowerBound: Math.min(cheaper.expectedCost, Math.max(before.lowerBound, now.lowerBound)) };
}
