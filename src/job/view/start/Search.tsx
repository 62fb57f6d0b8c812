/** A list that is searched in everyday words: what was picked stays on top. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

interface Item {
  readonly id: string;
  readonly title: string;
  readonly also: readonly string[];
}

const plain = (text: string): string => text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, ' ');

/** Items of which every typed word begins some word of the title or of a synonym. */
export function matching<Found extends Item>(items: readonly Found[], query: string): readonly Found[] {
  const words = plain(query).split(' ').filter(Boolean);
  if (words.length === 0) return items;
  return items.filter((item) => {
    const text = ` ${plain([item.title, ...item.also].join(' '))}`;
    return words.every((word) => text.includes(` ${word}`));
  });
}

interface Props<Found extends Item> {
  readonly label: string;
  readonly items: readonly Found[];
  readonly picked: (item: Found) => boolean;
  /** Items shown while nothing is typed; the rest is found by typing. */
  readonly first: number;
  readonly children: (item: Found) => ComponentChildren;
}

export function SearchList<Found extends Item>({ label, items, picked, first, children }: Props<Found>) {
  const [query, setQuery] = useState('');
  const chosen = items.filter(picked);
  const found = matching(
    items.filter((item) => !picked(item)),
    query,
  );
  const shown = query.trim() === '' ? found.slice(0, first) : found.slice(0, 30);
  return (
    <div class="search-list">
      <label class="field">
        <span>{label}</span>
        <input type="search" value={query} onInput={(event) => setQuery(event.currentTarget.value)} />
      </label>
      <ul>
        {[...chosen, ...shown].map((item) => (
          <li key={item.id}>{children(item)}</li>
        ))}
      </ul>
      <p class="quiet" role="status">
        {query.trim() !== '' && found.length === 0
          ? 'Nothing by that name. Try fewer or other words.'
          : found.length > shown.length
            ? `${found.length - shown.length} more: type a word.`
            : ''}
      </p>
    </div>
  );
}
