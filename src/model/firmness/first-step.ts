/** How firmly an order begins with its first step, by the quick rank, and which numbers would change that. Pure. */
import { type RankedAction, rerank, type TroubleshootingModel } from '../../engine/plan/index.ts';
import { seededRandom } from '../../engine/plan/random.ts';
import { type Strengths, sampleModel } from '../../engine/plan/robustness.ts';

export interface Sampling extends Strengths {
  /** So many samples are drawn at most. */
  readonly samples: number;
  readonly start: number;
  /** Asked before each sample: true once further ones could change nothing that the asker wants to know. */
  readonly settled?: (firsts: readonly (FirstStep & { readonly times: number })[], stated: FirstStep) => boolean;
}

/** A step that could come first: a check or a repair by its index in the model, or handing over. */
export interface FirstStep {
  readonly kind: RankedAction['kind'];
  readonly action: number | null;
}

export interface FirstStepFirmness {
  readonly samples: number;
  readonly stated: FirstStep;
  /** All first steps of the samples with how often they were first; the most frequent first, ties to the lower index. */
  readonly firsts: readonly (FirstStep & { readonly times: number })[];
  /** What beginning with the stated step costs above the best beginning of each sample, on average. */
  readonly meanLoss: number;
  /** Expected cost of the job by the quick rank, for the stated chances. */
  readonly cost: number;
}

/** So many of the nearest beginnings take part in a sample: those further off are never first in practice. */
const nearest = 6;

/**
 * Samples chances about the stated ones and ranks the beginnings of each sample one step ahead, with repairs in P/C order
 * after it. Much quicker than planning each sample anew, and blind to what a second check would add. The same `start`
 * gives the same samples.
 */
export function firstStepFirmness(
  model: TroubleshootingModel,
  { samples, start, settled = () => false, ...strengths }: Sampling,
): FirstStepFirmness {
  const near = rerank(model).slice(0, nearest);
  const among = beginningWith(model, near);
  const stated = near[0]!;
  const random = seededRandom(start);
  const firsts = new Map<string, FirstStep & { times: number }>();
  let loss = 0;
  let drawn = 0;
  while (drawn < samples && !settled([...firsts.values()], stated)) {
    drawn++;
    const begins = among.rank(sampleModel(among.model, strengths, random));
    const first = begins[0]!;
    const seen = firsts.get(`${first.kind} ${first.action}`) ?? { kind: first.kind, action: first.action, times: 0 };
    seen.times++;
    firsts.set(`${first.kind} ${first.action}`, seen);
    loss += begins.find((step) => same(step, stated))!.estimate - first.estimate;
  }
  return {
    samples: drawn,
    stated: { kind: stated.kind, action: stated.action },
    firsts: [...firsts.values()].sort((a, b) => b.times - a.times || (a.action ?? Number.MAX_VALUE) - (b.action ?? Number.MAX_VALUE)),
    meanLoss: loss / Math.max(1, drawn),
    cost: stated.estimate,
  };
}

export const same = (a: FirstStep, b: FirstStep): boolean => a.kind === b.kind && a.action === b.action;

/** What the job costs if `a` comes first, above what it costs if `b` does, by the quick rank. */
export function costAbove(model: TroubleshootingModel, a: FirstStep, b: FirstStep): number {
  const { model: among, rank } = beginningWith(model, [a, b]);
  const ranked = rank(among);
  const estimate = (step: FirstStep) => ranked.find((one) => same(one, step))!.estimate;
  return estimate(a) - estimate(b);
}

/** The model with no checks but those that may come first, and its ranks of those steps in the indices of the whole model. */
function beginningWith(
  model: TroubleshootingModel,
  steps: readonly FirstStep[],
): { readonly model: TroubleshootingModel; readonly rank: (model: TroubleshootingModel) => readonly RankedAction[] } {
  const kept = steps.flatMap((step) => (step.kind === 'check' ? [step.action!] : []));
  return {
    model: {
      ...model,
      // What can be first waits for nothing, and one step ahead no result is asked for twice.
      checks: kept.map((index) => ({ ...model.checks[index]!, after: [] })),
      repairs: model.repairs.map((repair) => ({ ...repair, after: [], spoils: [] })),
    },
    rank: (among) =>
      rerank(among)
        .map((step) => (step.kind === 'check' ? { ...step, action: kept[step.action!]! } : step))
        .filter((step) => steps.some((one) => same(one, step))),
  };
}
