/** What a step costs, as boxes of the sheet. */

import type { Proposal } from '../planner/proposal.ts';
import { useSession } from './context.ts';
import { duration, money, percent } from './figures.ts';

export function Figures(props: {
  readonly proposal: Proposal | null;
  /** Null: being reckoned; left out where it is not asked, as for a cause that is found. */
  readonly settles?: number | null;
  readonly engine: string | null;
  readonly skill: string | null;
}) {
  const { proposal, settles, engine, skill } = props;
  const { knowledge, shared } = useSession().data;
  const facts = proposal ? (knowledge.checks[proposal.id] ?? knowledge.causes[proposal.id]?.repair ?? null) : null;
  const owned = facts?.tools.filter((tool) => !proposal?.tools.includes(tool)) ?? [];
  return (
    <dl class="facts">
      {settles !== undefined && <Box label="Chance that it settles the matter" value={settles === null ? '…' : percent(settles)} />}
      <Box label="Hands on" value={proposal ? duration(proposal.attendedMinutes) : '…'} />
      {proposal && proposal.waitingMinutes > 0 && <Box label="Waiting" value={duration(proposal.waitingMinutes)} />}
      <Box label="Money" value={proposal ? money(proposal.money) : '…'} />
      {engine && <Box label="Engine" value={engine} />}
      {skill && <Box label="Skill" value={skill} />}
      {proposal && proposal.setUps.length > 0 && (
        <Box label="Access, counted in" value={proposal.setUps.map((id) => shared.setUps[id]?.title ?? id).join(', ')} />
      )}
      {proposal && proposal.tools.length > 0 && (
        <Box label="To borrow or buy, counted in" value={proposal.tools.map((id) => knowledge.tools[id]?.title ?? id).join(', ')} />
      )}
      {owned.length > 0 && <Box label="Tools" value={owned.map((id) => knowledge.tools[id]?.title ?? id).join(', ')} />}
    </dl>
  );
}

function Box({ label, value }: { readonly label: string; readonly value: string }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{value}</dd>
    </div>
  );
}
