/** A number with a unit that can be switched: switching carries the number over. */
import { useState } from 'preact/hooks';
import { figures, typedNumber } from '../calc/figures.ts';
import { fromBase, type Scale, toBase } from '../calc/scale.ts';

export interface Entry {
  readonly text: string;
  readonly scale: Scale;
  readonly scales: readonly Scale[];
  /** In the base unit; null when nothing, or no number, is typed. */
  readonly value: number | null;
  readonly faulty: boolean;
  type(text: string): void;
  switchTo(unit: string): void;
}

/** A scale for numbers whose unit has no choice. */
export const plainScale = (unit: string): readonly Scale[] => [{ unit, factor: 1, offset: 0 }];

/** State of one field. `unit` is what it starts in; else the first scale. */
export function useEntry(start: string, scales: readonly Scale[], unit?: string): Entry {
  const [state, set] = useState({ text: start, unit: unit ?? scales[0]!.unit });
  const scale = scales.find((candidate) => candidate.unit === state.unit) ?? scales[0]!;
  const number = typedNumber(state.text);
  return {
    text: state.text,
    scale,
    scales,
    value: number === null ? null : toBase(number, scale),
    faulty: state.text.trim() !== '' && number === null,
    type: (text) => set({ text, unit: state.unit }),
    switchTo: (next) => {
      const to = scales.find((candidate) => candidate.unit === next)!;
      // A plain sign, so that what is shown can be typed on.
      const text = number === null ? state.text : figures(fromBase(toBase(number, scale), to), 6).replace('−', '-');
      set({ text, unit: next });
    },
  };
}

/** The field. Touching it selects what stands there, so that an example is typed over. */
export function NumberEntry({ title, entry, hint }: { readonly title: string; readonly entry: Entry; readonly hint?: string }) {
  const one = entry.scales.length === 1;
  return (
    <div class="entry">
      <label class="entry-main">
        <span>
          {title} {one && entry.scale.unit && <small>{entry.scale.unit}</small>}
        </span>
        <input
          type="text"
          inputMode="decimal"
          autocomplete="off"
          value={entry.text}
          aria-invalid={entry.faulty}
          onFocus={(event) => event.currentTarget.select()}
          onInput={(event) => entry.type(event.currentTarget.value)}
        />
      </label>
      {!one && (
        <select aria-label={`Unit of ${title}`} value={entry.scale.unit} onChange={(event) => entry.switchTo(event.currentTarget.value)}>
          {entry.scales.map(({ unit }) => (
            <option key={unit} value={unit} selected={unit === entry.scale.unit}>
              {unit}
            </option>
          ))}
        </select>
      )}
      {entry.faulty ? <p class="entry-fault">This is no number.</p> : hint && <p class="entry-hint">{hint}</p>}
    </div>
  );
}
