/** The tail of an order: steps that together settle next to nothing, told as one until somebody asks. */

/** Steps that settle less than this together are rare; fewer than three are not worth folding. */
const rareTogether = 0.01;
const fewestFolded = 3;

/**
 * Where the rare steps begin, and where the step begins that ends the order (handing over). Equal when none are folded.
 * `settles` is the chance, seen from the start, that a step settles the matter.
 */
export function rareSteps(
  steps: readonly { readonly kind: string; readonly settles: number }[],
): readonly [rareFrom: number, lastFrom: number] {
  const lastFrom = steps.at(-1)?.kind === 'hand-over' ? steps.length - 1 : steps.length;
  let rareFrom = lastFrom;
  let settles = 0;
  // The first step is never rare.
  while (rareFrom > 1 && settles + steps[rareFrom - 1]!.settles < rareTogether) {
    rareFrom -= 1;
    settles += steps[rareFrom]!.settles;
  }
  return lastFrom - rareFrom < fewestFolded ? [lastFrom, lastFrom] : [rareFrom, lastFrom];
}
