/** The two-cause example of the guide, computed by the engine: how words become numbers and numbers an order. */
import { comparePolicyWith, type PolicyNode, plan, type TroubleshootingModel } from '../engine/plan/index.ts';
import { verbalScale } from '../model/schema/scalars.ts';

export interface WorkedExample {
  /** P(the check finds it). */
  readonly finds: number;
  /** P(gasket leaks | the check finds it) and P(gasket leaks | it finds nothing), by Bayes' rule. */
  readonly gasketWhenFound: number;
  readonly gasketWhenNot: number;
  readonly expectedCost: number;
  /** What comes first, and, for each of its results, what follows until the job ends. */
  readonly first: string;
  readonly branches: readonly { readonly result: string; readonly chance: number; readonly steps: readonly string[] }[];
  readonly orders: readonly { readonly strategy: string; readonly expectedCost: number }[];
}

/** Shares as a contributor writes them. */
export const exampleShares = { gasket: 0.7, pump: 0.3 } as const;
/** The smoke test finds a leaking gasket "probable" (.85), and smokes at something else in 3 of 100 cars with a weak pump. */
export const exampleRow = { gasket: verbalScale.probable, pump: 0.03 } as const;
export const exampleCosts = { look: 5, gasket: 180, pump: 260, handOver: 420 } as const;

const names = {
  check: 'Blow smoke into the intake',
  repairs: ['Renew the intake gasket', 'Replace the weak fuel pump'],
  over: 'Hand over',
};
const results = ['No smoke shows', 'Smoke shows at the manifold'];

function exampleModel(): TroubleshootingModel {
  const action = { setUps: [], after: [], engineState: 'any' as const };
  return {
    prior: [exampleShares.gasket, exampleShares.pump],
    checks: [
      {
        ...action,
        id: 'smoke',
        cost: exampleCosts.look,
        likelihood: [
          [1 - exampleRow.gasket, exampleRow.gasket],
          [1 - exampleRow.pump, exampleRow.pump],
        ],
        repeats: false,
        maxPerformances: 1,
      },
    ],
    repairs: [
      { ...action, id: 'gasket', cost: exampleCosts.gasket, fixes: [0.98, 0], spoils: [] },
      { ...action, id: 'pump', cost: exampleCosts.pump, fixes: [0, 0.95], spoils: [] },
    ],
    setUpCosts: [],
    handOverCost: exampleCosts.handOver,
    coolDownCost: 0,
    warmUpCost: 0,
    startsWarm: false,
    setUpsDone: [],
    checksDone: [],
    repairsTried: [],
  };
}

const stepName = (node: PolicyNode): string =>
  node.kind === 'check' ? names.check : node.kind === 'repair' ? names.repairs[node.action]! : names.over;

/** The steps until the job ends, while each repair leaves the fault. */
function stepsFrom(node: PolicyNode | null): string[] {
  if (node === null) return [];
  return [stepName(node), ...(node.kind === 'repair' ? stepsFrom(node.next) : [])];
}

export function workedExample(): WorkedExample {
  const model = exampleModel();
  const { gasket, pump } = exampleShares;
  const finds = gasket * exampleRow.gasket + pump * exampleRow.pump;
  const found = plan(model, { nodes: 1000 });
  return {
    finds,
    gasketWhenFound: (gasket * exampleRow.gasket) / finds,
    gasketWhenNot: (gasket * (1 - exampleRow.gasket)) / (1 - finds),
    expectedCost: found.expectedCost,
    first: stepName(found.policy),
    branches:
      found.policy.kind === 'check'
        ? found.policy.next.map((node, outcome) => ({
            result: results[outcome]!,
            chance: outcome === 1 ? finds : 1 - finds,
            steps: stepsFrom(node),
          }))
        : [],
    orders: comparePolicyWith(model, found.policy).map(({ strategy, expectedCost }) => ({ strategy, expectedCost })),
  };
}
