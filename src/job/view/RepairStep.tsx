/** A repair as a card: parts, cautions, steps, torque with the maker's value first, relearn and close-up; then whether it held. */

import type { RepairCard } from '../card-types.ts';
import { repairCard } from '../data.ts';
import type { Proposal } from '../planner/proposal.ts';
import { Cautions } from './Cautions.tsx';
import { useSession } from './context.ts';
import { Figures } from './Figures.tsx';
import { percent } from './figures.ts';
import { useCard } from './use-card.ts';

export interface RepairProps {
  readonly cause: string;
  readonly proposal: Proposal | null;
  readonly settles?: number | null;
}

export function RepairStep({ cause, proposal, settles }: RepairProps) {
  const session = useSession();
  const { shared, knowledge } = session.data;
  const fetched = useCard(cause, repairCard);
  const card = fetched.state === 'here' ? fetched.card : null;
  const chance = session.belief.value.causes.find(({ id }) => id === cause)?.probability ?? 0;
  return (
    <>
      <p class="step-asks">
        {settles === undefined
          ? knowledge.causes[cause]?.repair.title
          : `Mends: ${knowledge.causes[cause]?.title ?? cause} (${percent(chance)} likely now)`}
      </p>
      {card && <p>{card.what}</p>}
      <Figures proposal={proposal} {...(settles !== undefined && { settles })} engine={card?.engine ?? null} skill={null} />
      {fetched.state === 'missing' && <p role="alert">The steps of this repair are not on this device yet. Go online once.</p>}
      {card && <RepairBody card={card} shared={shared} />}
      <section class="results" aria-labelledby="held-head">
        <h3 id="held-head">Did it help?</h3>
        {card && <p>{card.verify}</p>}
        <ul class="outcome-buttons">
          <li>
            <button type="button" onClick={() => session.answer({ kind: 'repair', cause, outcome: 'gone' })}>
              <b>Done, the fault is gone so far</b>
              <small>Go on to the proof.</small>
            </button>
          </li>
          <li>
            <button type="button" onClick={() => session.answer({ kind: 'repair', cause, outcome: 'still-there' })}>
              <b>Done, the fault is still there</b>
              <small>The search goes on; this cause stays possible, less likely.</small>
            </button>
          </li>
        </ul>
      </section>
    </>
  );
}

function RepairBody({ card, shared }: { readonly card: RepairCard; readonly shared: ReturnType<typeof useSession>['data']['shared'] }) {
  return (
    <>
      {card.professionalOnly && (
        <p>
          <strong>This repair is work for a professional.</strong>
        </p>
      )}
      <Cautions ids={card.cautions} shared={shared} />
      {card.parts.length > 0 && (
        <>
          <h3>Parts</h3>
          <ul>
            {card.parts.map((part) => (
              <li key={part.id}>
                {part.count > 1 ? `${part.count} × ` : ''}
                <b>{part.title}</b>, {part.price}
                {part.oneTimeUse && <em> one-time use: always new</em>}
                {part.only && ` (${part.only})`}
                {part.advice && <small class="line">{part.advice}</small>}
              </li>
            ))}
          </ul>
        </>
      )}
      <h3>Steps</h3>
      <ol class="work-steps">
        {card.steps.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ol>
      {card.torque.length > 0 && (
        <>
          <h3>Torque</h3>
          <p>The value in the service information of the vehicle comes first. Only where it cannot be had, by size of fastener:</p>
          <div class="ledger">
            <table>
              <thead>
                <tr>
                  <th scope="col">Fastener</th>
                  <th scope="col">Maker’s value</th>
                  <th scope="col">Else, N·m</th>
                  <th scope="col">lbf·ft</th>
                </tr>
              </thead>
              <tbody>
                {card.torque.map((line) => (
                  <tr key={line.what}>
                    <th scope="row">
                      {line.what}
                      <small class="line">{line.note}</small>
                    </th>
                    <td class="blank-box" data-head="Maker’s value">
                      <span class="quiet">look it up</span>
                    </td>
                    <td class="number" data-head="Else, N·m">
                      {line.newtonMetres}
                    </td>
                    <td class="number" data-head="lbf·ft">
                      {line.poundFeet}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <p class="quiet">From: {[...new Set(card.torque.map(({ source }) => source))].join('; ')}.</p>
        </>
      )}
      <Lines title="Before closing up" lines={card.closeUp} />
      <Lines title="Relearn" lines={card.relearn} />
    </>
  );
}

function Lines({ title, lines }: { readonly title: string; readonly lines: readonly string[] }) {
  return lines.length === 0 ? null : (
    <>
      <h3>{title}</h3>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}
