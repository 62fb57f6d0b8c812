/** The belief about one car: prior x evidence x results of checks, by Bayes' rule over single faults. */
import type { Case } from '../case.ts';
import type { CauseFacts, Knowledge } from '../knowledge.ts';
import { type Evidence, evidenceOf } from './evidence.ts';
import { inKnownWords } from './known-words.ts';
import { type CauseId, prior } from './prior.ts';
import { provenTraits } from './proven.ts';

/** A fault as checks meet it: an intermittent one is either there while the car stands in the garage, or hidden. */
export interface Hypothesis {
  readonly cause: CauseId;
  readonly hidden: boolean;
  readonly probability: number;
}

export interface Belief {
  /** Sums to 1; sorted by cause id, "none of these" last. */
  readonly hypotheses: readonly Hypothesis[];
  /** P(cause), hidden or not, likeliest first; id null is "none of these". */
  readonly causes: readonly { readonly id: CauseId; readonly probability: number }[];
  readonly families: readonly string[];
  readonly evidence: readonly Evidence[];
}

/** Families that the codes of a case name, each once, in the order of the codes. */
export const familiesOf = (situation: Case, knowledge: Knowledge): readonly string[] => [
  ...new Set((situation.codes ?? []).flatMap((code) => knowledge.codes[code]?.family ?? [])),
];

/**
 * Posterior over hypotheses. Exact for one fault: each evidence item and each result is independent of the others given the
 * cause (and, for an intermittent fault, given whether it is there now). Results of one check: only the last counts unless
 * the check repeats. Unknown ids are passed over.
 */
export function belief(told: Case, knowledge: Knowledge): Belief {
  const situation = inKnownWords(told, knowledge);
  const families = familiesOf(situation, knowledge);
  const evidence = evidenceOf(situation, knowledge);
  const start = prior(families, situation.engine ?? {}, knowledge, provenTraits(situation, knowledge));
  const results = countedResults(situation, knowledge);

  const weights: Hypothesis[] = [];
  const order = [...start.keys()].filter((id) => id !== null).sort();
  for (const id of [...order, null]) {
    const cause: CauseFacts | null = id === null ? null : knowledge.causes[id]!;
    const seen = evidence.reduce((total, item) => total * item.likelihood(cause), start.get(id) ?? 0);
    const hiddenChance = cause?.hidden ?? 0;
    for (const hidden of hiddenChance > 0 ? [false, true] : [false]) {
      const share = hiddenChance > 0 ? (hidden ? hiddenChance : 1 - hiddenChance) : 1;
      const probability = results.reduce(
        (total, { check, outcome }) => total * checkRow(check, id, hidden, knowledge)[outcome]!,
        seen * share,
      );
      weights.push({ cause: id, hidden, probability });
    }
  }
  const sum = weights.reduce((total, { probability }) => total + probability, 0);
  // All weights can vanish only by contradictory known traits; then nothing listed fits.
  const hypotheses =
    sum > 0
      ? weights.map((hypothesis) => ({ ...hypothesis, probability: hypothesis.probability / sum }))
      : weights.map((hypothesis) => ({ ...hypothesis, probability: hypothesis.cause === null ? 1 : 0 }));
  return { hypotheses, causes: byCause(hypotheses), families, evidence };
}

/** P(outcome | hypothesis) of a check: a hidden fault is seen only by a check that provokes it. */
export function checkRow(check: string, cause: CauseId, hidden: boolean, knowledge: Knowledge): readonly number[] {
  const facts = knowledge.checks[check]!;
  if (cause === null || (hidden && !facts.provokes)) return facts.otherwise;
  return facts.likelihood[cause] ?? facts.otherwise;
}

/** Results that count, with outcomes as indices. */
function countedResults(situation: Case, knowledge: Knowledge): readonly { readonly check: string; readonly outcome: number }[] {
  const all = (situation.results ?? []).flatMap(({ check, outcome }) => {
    const index = knowledge.checks[check]?.outcomes.findIndex((candidate) => candidate.id === outcome) ?? -1;
    return index < 0 ? [] : [{ check, outcome: index }];
  });
  return all.filter(
    ({ check }, position) => knowledge.checks[check]!.repeats || all.findLastIndex((other) => other.check === check) === position,
  );
}

function byCause(hypotheses: readonly Hypothesis[]): Belief['causes'] {
  const sums = new Map<CauseId, number>();
  for (const { cause, probability } of hypotheses) sums.set(cause, (sums.get(cause) ?? 0) + probability);
  return [...sums]
    .map(([id, probability]) => ({ id, probability }))
    .sort((a, b) => b.probability - a.probability || ((a.id ?? '~') < (b.id ?? '~') ? -1 : 1));
}
