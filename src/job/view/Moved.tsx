/** What one kind of evidence moved, right under where it is entered. */
import type { EvidenceKind } from '../../engine/belief/index.ts';
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
