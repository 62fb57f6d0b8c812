/** A typed number -> the outcome that its limits say. */

export interface Limited {
  readonly id: string;
  readonly when: { readonly above: number | null; readonly below: number | null } | null;
}

/** The outcome with above <= value < below; null when none has such limits. The value is in the content's unit. */
export function outcomeOfReading<Outcome extends Limited>(value: number, outcomes: readonly Outcome[]): Outcome | null {
  return (
    outcomes.find(
      ({ when }) =>
        when !== null &&
        (when.above !== null || when.below !== null) &&
        (when.above === null || value >= when.above) &&
        (when.below === null || value < when.below),
    ) ?? null
  );
}
