/** One value in all units of its quantity. */
import { useState } from 'preact/hooks';
import { figures, typedNumber } from '../calc/figures.ts';
import { fromBase, type Scale, toBase } from '../calc/scale.ts';
import { Result, Waiting } from './parts.tsx';

export interface UnitsData {
  readonly quantities: readonly { readonly id: string; readonly title: string; readonly scales: readonly Scale[] }[];
}

export function Units({ data }: { readonly data: UnitsData }) {
  const [state, set] = useState({ quantity: data.quantities[0]!.id, unit: data.quantities[0]!.scales[1]!.unit, text: '18' });
  const quantity = data.quantities.find(({ id }) => id === state.quantity)!;
  const scale = quantity.scales.find(({ unit }) => unit === state.unit)!;
  const value = typedNumber(state.text);
  const faulty = value === null && state.text.trim() !== '';
  const tooCold = state.quantity === 'temperature' && value !== null && toBase(value, scale) < -273.15;
  return (
    <>
      <div class="bench-form">
        <fieldset class="bench-group">
          <legend>What is measured</legend>
          <div class="cylinders">
            {data.quantities.map(({ id, title, scales }) => (
              <button
                key={id}
                type="button"
                aria-pressed={id === state.quantity}
                onClick={() => set({ quantity: id, unit: scales[id === 'torque' ? 1 : 0]!.unit, text: state.text })}
              >
                {title}
              </button>
            ))}
          </div>
        </fieldset>
        <div class="entry">
          <label class="entry-main">
            <span>Value</span>
            <input
              type="text"
              inputMode="decimal"
              autocomplete="off"
              value={state.text}
              aria-invalid={faulty}
              onFocus={(event) => event.currentTarget.select()}
              onInput={(event) => set({ ...state, text: event.currentTarget.value })}
            />
          </label>
          <select
            aria-label="Unit of the value"
            value={state.unit}
            onChange={(event) => set({ ...state, unit: event.currentTarget.value })}
          >
            {quantity.scales.map(({ unit }) => (
              <option key={unit} value={unit} selected={unit === state.unit}>
                {unit}
              </option>
            ))}
          </select>
          {faulty && <p class="entry-fault">This is no number.</p>}
        </div>
      </div>
      <Result>
        {value === null || tooCold ? (
          <Waiting>{tooCold ? 'Colder than anything can be.' : 'Type a value.'}</Waiting>
        ) : (
          <table class="shares">
            <caption>
              {quantity.title}: {state.text.trim()} {state.unit}, to six figures
            </caption>
            <tbody>
              {quantity.scales.map((to) => (
                <tr key={to.unit}>
                  <th scope="row">{to.unit}</th>
                  <td class="number result-number">{figures(fromBase(toBase(value, scale), to), 6)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </Result>
    </>
  );
}
