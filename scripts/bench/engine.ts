/**
 * Times and proven gaps of the planner: `npm run bench -- engine [--sizes 6x6,10x15] [--nodes 4000] [--models 2]
 * [--families] [--json]`. Times are processor time, so that other work on the machine moves them less. Columns:
 *
 * re-rank      one immediate ranking, median of 9
 * browser      the plan of a budget of 10 nodes (greedy policy, improved state by state; omniscient bound)
 * plan         the plan at the node budget of the size
 * cost, gap    of that plan: expected cost, (cost - bound) / bound
 * bounds       in % of the cost: omniscient, pair bound at the root, search. What they lack is what each is loose by.
 * the rest     expected cost above that plan: browser plan, repairs alone in P/C order, cheapest first, likeliest first
 */
import { parseArgs } from 'node:util';
import { cheapestFirst, likeliestFirst, strategyPolicy } from '../../src/engine/plan/compare.ts';
import { evaluatePolicy, plan, rerank, type TroubleshootingModel } from '../../src/engine/plan/index.ts';
import { compileInstance, startStatus } from '../../src/engine/plan/instance.ts';
import { KnownCosts } from '../../src/engine/plan/known-cost.ts';
import { PairBound } from '../../src/engine/plan/pair-bound.ts';
import { pairDetail } from '../../src/engine/plan/plan.ts';
import { seededRandom } from '../../src/engine/plan/random.ts';
import { RepairSequencer } from '../../src/engine/plan/repair-sequence.ts';
import { figure, percent, Report } from './figures.ts';
import { randomModel } from './random-models.ts';

/** Nodes that one core searches in about 20 seconds. */
const BUILD_NODES: Readonly<Record<string, number>> = {
  '6x6': 20_000,
  '10x15': 60_000,
  '15x25': 10_000,
  '20x30': 3000,
  '30x45': 600,
  '40x60': 300,
};

const { values: options } = parseArgs({
  options: {
    sizes: { type: 'string', default: Object.keys(BUILD_NODES).join(',') },
    nodes: { type: 'string' },
    models: { type: 'string', default: '2' },
    families: { type: 'boolean', default: false },
    json: { type: 'boolean', default: false },
  },
});

const report = new Report(options.json);
report.table('Planner', [
  'model',
  're-rank',
  'browser',
  'plan',
  'nodes',
  'cost',
  'gap',
  'omniscient',
  'pairs',
  'search',
  'browser +',
  'P/C +',
  'cheapest +',
  'likeliest +',
]);

for (const size of options.families ? [] : options.sizes.split(',')) {
  const [causes = 6, checks = 6] = size.split('x').map(Number);
  for (let start = 1; start <= Number(options.models); start++) {
    row(`${size} no. ${start}`, randomModel(causes, checks, seededRandom(start)), Number(options.nodes ?? BUILD_NODES[size] ?? 1000));
  }
}

if (options.families) {
  const { knowledgeOrExit } = await import('../content/knowledge.ts');
  const { formulate } = await import('../../src/engine/formulate.ts');
  const { knowledge } = knowledgeOrExit();
  for (const family of Object.keys(knowledge.families).sort()) {
    const code = Object.values(knowledge.codes).find((facts) => facts.family === family);
    if (!code) continue;
    const { model } = formulate({ codes: [code.id] }, knowledge);
    row(`${family} ${model.prior.length}x${model.checks.length}`, model, Number(options.nodes ?? 1000));
  }
}

report.end();

function row(name: string, model: TroubleshootingModel, nodes: number): void {
  const times = Array.from({ length: 9 }, () => timed(() => rerank(model)).milliseconds).sort((a, b) => a - b);
  const quick = timed(() => plan(model, { nodes: 10 }));
  const made = timed(() => plan(model, { nodes }));
  const cost = made.value.expectedCost;
  const above = (other: number) => percent(other / cost - 1);
  const instance = compileInstance(model);
  const status = startStatus(instance);
  const prior = Float64Array.from(model.prior);
  const omniscient = new KnownCosts(instance).expected(prior, status);
  const detail = pairDetail(100);
  const pairs = new PairBound(instance, prior, status, detail).tune(prior, status, detail.rounds);
  const repairsAlone = new RepairSequencer(instance).cost(prior, status, 1);
  const cells = [
    figure(times[4] ?? 0, 'ms', 1),
    figure(quick.milliseconds, 'ms'),
    figure(made.milliseconds / 1000, 's', 1),
    figure(made.value.nodes, ''),
    figure(cost, '', 2),
    percent(made.value.gap),
    percent(omniscient / cost),
    percent(pairs / cost),
    percent(made.value.lowerBound / cost),
    above(quick.value.expectedCost),
    above(repairsAlone),
    above(evaluatePolicy(model, strategyPolicy(model, cheapestFirst))),
    above(evaluatePolicy(model, strategyPolicy(model, likeliestFirst))),
  ];
  report.row([name, ...cells]);
}

function timed<T>(work: () => T): { value: T; milliseconds: number } {
  const before = process.cpuUsage();
  const value = work();
  const spent = process.cpuUsage(before);
  return { value, milliseconds: (spent.user + spent.system) / 1000 };
}
