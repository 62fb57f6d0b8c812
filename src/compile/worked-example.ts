/** The two-cause example of the guide, computed by the engine: how words become numbers and numbers an order. */
import { comparePolicyWith, plan, spine, type TroubleshootingModel } from '../engine/plan/index.ts';
import { verbalScale } from '../model/schema/scalars.ts';

export interface WorkedExample {
  /** P(the check finds it). */
  readonly finds: number;
  /** P(hose split | the check finds it) and P(hose split | it finds nothing), by Bayes' rule. */
  readonly hoseWhenFound: number;
  readonly hoseWhenNot: number;
  readonly expectedCost: number;
  readonly order: readonly { readonly title: string; readonly settles: number; readonly cost: number }[];
  readonly orders: readonly { readonly strategy: string; readonly expectedCost: number }[];
}

/** Shares as a contributor writes them. */
export const exampleShares = { hose: 0.7, pump: 0.3 } as const;
/** The smoke test finds a split hose "probable" (.85), and smokes at something else in 3 of 100 cars with a weak pump. */
export const exampleRow = { hose: verbalScale.probable, pump: 0.03 } as const;
export const exampleCosts = { look: 5, hose: 25, pump: 260, handOver: 420 } as const;

const names = { check: 'Blow smoke into the intake', repairs: ['Replace the split hose', 'Replace the weak fuel pump'], over: 'Hand over' };

function exampleModel(): TroubleshootingModel {
  const action = { setUps: [], after: [], engineState: 'any' as const };
  return {
    prior: [exampleShares.hose, exampleShares.pump],
    checks: [
      {
        ...action,
        id: 'smoke',
        cost: exampleCosts.look,
        likelihood: [
          [1 - exampleRow.hose, exampleRow.hose],
          [1 - exampleRow.pump, exampleRow.pump],
        ],
        repeats: false,
        maxPerformances: 1,
      },
    ],
    repairs: [
      { ...action, id: 'hose', cost: exampleCosts.hose, fixes: [0.98, 0], spoils: [] },
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

export function workedExample(): WorkedExample {
  const model = exampleModel();
  const { hose, pump } = exampleShares;
  const finds = hose * exampleRow.hose + pump * exampleRow.pump;
  const found = plan(model, { nodes: 1000 });
  return {
    finds,
    hoseWhenFound: (hose * exampleRow.hose) / finds,
    hoseWhenNot: (hose * (1 - exampleRow.hose)) / (1 - finds),
    expectedCost: found.expectedCost,
    order: spine(model, found.policy).map((step) => ({
      title: step.kind === 'check' ? names.check : step.kind === 'repair' ? names.repairs[step.action!]! : names.over,
      settles: step.settles,
      cost: step.cost,
    })),
    orders: comparePolicyWith(model, found.policy).map(({ strategy, expectedCost }) => ({ strategy, expectedCost })),
  };
}
