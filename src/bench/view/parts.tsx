/** What several calculators show alike: the result, boxes, shares as bars, and the way into a job. */
import type { ComponentChildren } from 'preact';
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import type { Case } from '../../engine/case.ts';
import { percent } from '../calc/figures.ts';

/** Gives what is known to a job; handed in by the page, since the bench does not know how a job travels. */
export const OpenJob = createContext<(situation: Case) => void>(() => {});

export function Result({ children }: { readonly children: ComponentChildren }) {
  return (
    <div class="result" role="status">
      {children}
    </div>
  );
}

/** What a missing number means for the result. */
export const Waiting = ({ children }: { readonly children: ComponentChildren }) => <p class="result-waiting">{children}</p>;

export function Boxes({ items }: { readonly items: readonly (readonly [title: string, value: ComponentChildren])[] }) {
  return (
    <dl class="facts">
      {items.map(([title, value]) => (
        <div key={title}>
          <dt>{title}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

export interface ShareRow {
  readonly id: string;
  readonly title: ComponentChildren;
  readonly share: number;
}

/** Shares by bars; what is under 1 percent is left out and said to be. */
export function Shares({ caption, rows }: { readonly caption: string; readonly rows: readonly ShareRow[] }) {
  const shown = rows.filter(({ share }) => share >= 0.01);
  const rest = rows.length - shown.length;
  return (
    <table class="shares">
      <caption>{caption}</caption>
      <tbody>
        {shown.map(({ id, title, share }) => (
          <tr key={id}>
            <th scope="row">
              {title}
              <svg class="share-bar" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
                <rect class="share-rest" width="100" height="6" />
                <rect class="share-now" width={100 * share} height="6" />
              </svg>
            </th>
            <td class="number">{percent(share)}</td>
          </tr>
        ))}
        {rest > 0 && (
          <tr>
            <td colSpan={2} class="quiet">
              {rest} more under 1 %
            </td>
          </tr>
        )}
      </tbody>
    </table>
  );
}

/** A cause or check by name, with its page. */
export interface Named {
  readonly title: string;
  readonly href: string;
}

export function Links({ items }: { readonly items: readonly Named[] }) {
  return (
    <ul class="mentions mentions-inline">
      {items.map(({ title, href }) => (
        <li key={href}>
          <a href={href}>{title}</a>
        </li>
      ))}
    </ul>
  );
}

export function TakeIntoJob({ situation, what }: { readonly situation: Case; readonly what: string }) {
  const open = useContext(OpenJob);
  return (
    <div class="take">
      <button type="button" class="bench-button" onClick={() => open(situation)}>
        Take {what} into a job
      </button>
      <p class="quiet">A new one, or one that is open; nothing leaves the device.</p>
    </div>
  );
}
