/** What one kind of evidence moved, right under where it is entered. */
import { belief, type EvidenceKind } from '../../engine/belief/index.ts';
import { useSession } from './context.ts';
import { causeTitle, change } from './words.ts';

/** The three causes moved most by each item of these kinds. */
export function Moved({ kinds, id }: { readonly kinds: readonly EvidenceKind[]; readonly id?: string }) {
  const session = useSession();
  const items = session.moved.value.filter((item) => kinds.includes(item.kind) && (id === undefined || item.id === id));
  if (items.length === 0) return null;
  return (
    <ul class="moved" aria-live="polite">
      {items.map((item) => (
        <li key={`${item.kind} ${item.id}`}>
          <b>{item.title}:</b>{' '}
          {item.moved.length === 0
            ? 'moves nothing by itself.'
            : item.moved
                .slice(0, 3)
                .map(({ cause, without, with: now }) => `${causeTitle(cause, session.data.knowledge)} ${change(without, now)}`)
                .join('; ')}
        </li>
      ))}
    </ul>
  );
}

/** What the traits of the car moved: they are no evidence but decide what exists, so the belief is reckoned once without them. */
export function TraitsMoved() {
  const session = useSession();
  const { knowledge } = session.data;
  const situation = session.situation.value;
  const { recentWork, ...traits } = situation.engine ?? {};
  if (Object.keys(traits).length === 0) return null;
  const without = new Map(
    belief({ ...situation, engine: { recentWork: recentWork ?? [] } }, knowledge).causes.map(({ id, probability }) => [id, probability]),
  );
  const moved = session.belief.value.causes
    .map(({ id, probability }) => ({ id, from: without.get(id) ?? 0, to: probability }))
    .filter(({ from, to }) => Math.abs(to - from) >= 0.005)
    .sort((a, b) => Math.abs(b.to - b.from) - Math.abs(a.to - a.from));
  return (
    <ul class="moved" aria-live="polite">
      <li>
        <b>The car:</b>{' '}
        {moved.length === 0
          ? 'moves nothing so far.'
          : moved
              .slice(0, 3)
              .map(({ id, from, to }) => `${causeTitle(id, knowledge)} ${change(from, to)}`)
              .join('; ')}
      </li>
    </ul>
  );
}
