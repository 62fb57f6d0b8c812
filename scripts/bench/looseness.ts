/**
 * Where the lower bound lacks: `npm run bench -- looseness [FAMILY ...] [--json]`. For the first code of each family, in % of what
 * the order costs:
 *
 * knowing      what the job would cost someone who knows the cause (omniscient bound)
 * checks       paid for checks, with their set-ups and changes of engine state
 * in vain      repairs of what was not the cause
 * beyond       handing over what could have been mended for less
 * rest         repairs dearer than the cheapest that would have done, less set-ups that checks have paid already
 * pairs        what the pair bound finds of the last four at its root, with the detail of a plan of 100 nodes
 * search       what a search of 100 nodes and its bound find of them
 */
import { parseArgs } from 'node:util';
import { defaultCase } from '../../src/engine/default-case.ts';
import { formulate } from '../../src/engine/formulate.ts';
import { type PolicyNode, plan, type TroubleshootingModel } from '../../src/engine/plan/index.ts';
import { compileInstance, startStatus } from '../../src/engine/plan/instance.ts';
import { afterCheck, afterFailedRepair, at, type Job, mass, startJob } from '../../src/engine/plan/job.ts';
import { KnownCosts } from '../../src/engine/plan/known-cost.ts';
import { PairBound } from '../../src/engine/plan/pair-bound.ts';
import { pairDetail } from '../../src/engine/plan/plan.ts';
import { certifiedPlan } from '../../src/kept/certificates.ts';
import { knowledgeOrExit } from '../content/knowledge.ts';
import { figure, percent, Report } from './figures.ts';

const { knowledge } = knowledgeOrExit();
const { positionals: wanted, values } = parseArgs({ allowPositionals: true, options: { json: { type: 'boolean', default: false } } });
const unknown = wanted.filter((family) => !knowledge.families[family]);
if (unknown.length > 0) {
  console.error(`No such family: ${unknown.join(', ')}. There are: ${Object.keys(knowledge.families).sort().join(', ')}.`);
  process.exit(2);
}
const report = new Report(values.json);
report.table('What orders pay for, in % of their cost', [
  ...['family', 'cost', 'knowing', 'checks', 'in vain', 'beyond', 'rest', 'pairs', 'search'],
]);
for (const family of wanted.length > 0 ? wanted : Object.keys(knowledge.families).sort()) {
  const code = Object.values(knowledge.codes).find((facts) => facts.family === family);
  if (code) row(family, formulate(defaultCase([code.id], knowledge), knowledge).model);
}
report.end();

function row(family: string, model: TroubleshootingModel): void {
  const made = certifiedPlan(model)?.plan ?? plan(model, { nodes: 100 });
  const instance = compileInstance(model);
  const status = startStatus(instance);
  const prior = Float64Array.from(model.prior);
  const known = new KnownCosts(instance);
  const knowing = known.expected(prior, status);
  const detail = pairDetail(100);
  const pairs = new PairBound(instance, prior, status, detail).tune(prior, status, detail.rounds);
  const paid = { checks: 0, inVain: 0, beyond: 0 };
  // Someone who knows the cause may have to hand over too, once the right repair has failed: only repairs count here.
  const tried = startStatus(instance);
  const spend = (node: PolicyNode, job: Job): void => {
    if (node.kind === 'hand-over') {
      job.belief.forEach((weight, h) => {
        if (weight > 0) paid.beyond += weight * (node.cost - known.of(h, tried));
      });
    } else if (node.kind === 'check') {
      paid.checks += mass(job) * node.cost;
      afterCheck(model, job, node.action).forEach((next, outcome) => {
        const branch = node.next[outcome];
        if (branch && mass(next) > 0) spend(branch, next);
      });
    } else {
      const { fixes } = at(model.repairs, node.action);
      job.belief.forEach((weight, h) => {
        if (at(fixes, h) === 0) paid.inVain += weight * node.cost;
      });
      const next = afterFailedRepair(model, job, node.action);
      tried[instance.triedAt + node.action] = 1;
      if (node.next && mass(next) > 0) spend(node.next, next);
      tried[instance.triedAt + node.action] = 0;
    }
  };
  spend(made.policy, startJob(model));
  const cost = made.expectedCost;
  const rest = cost - knowing - paid.checks - paid.inVain - paid.beyond;
  const shares = [knowing, paid.checks, paid.inVain, paid.beyond, rest, pairs - knowing, made.lowerBound - knowing];
  report.row([family, figure(cost, '$'), ...shares.map((share) => percent(share / cost))]);
}
