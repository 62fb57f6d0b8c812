/** What the traits of the car moved: they are no evidence but decide what exists, so the belief is reckoned once without them. */
import { belief } from '../../engine/belief/index.ts';
import { useSession } from './context.ts';
import { causeTitle, change } from './words.ts';

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
