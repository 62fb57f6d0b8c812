/** Mutual information of a result and the cause, in nats: `rows[h][outcome]` under hypotheses of chance `prior[h]`. */
export function mutualInformation(rows: readonly (readonly number[])[], prior: readonly number[]): number {
  const outcomes = rows[0]?.length ?? 0;
  let sum = 0;
  for (let outcome = 0; outcome < outcomes; outcome++) {
    let chance = 0;
    for (let h = 0; h < prior.length; h++) chance += prior[h]! * rows[h]![outcome]!;
    for (let h = 0; h < prior.length; h++) {
      const row = rows[h]![outcome]!;
      if (row > 0 && chance > 0) sum += prior[h]! * row * Math.log(row / chance);
    }
  }
  return sum;
}
