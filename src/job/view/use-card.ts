/** A card that is being fetched. */
import { useEffect, useState } from 'preact/hooks';

export type Fetched<Card> = { readonly state: 'waiting' } | { readonly state: 'here'; readonly card: Card } | { readonly state: 'missing' };

export function useCard<Card>(id: string, fetchCard: (id: string) => Promise<Card>): Fetched<Card> {
  const [held, setHeld] = useState<{ readonly id: string; readonly fetched: Fetched<Card> }>({ id: '', fetched: { state: 'waiting' } });
  useEffect(() => {
    let current = true;
    fetchCard(id).then(
      (card) => current && setHeld({ id, fetched: { state: 'here', card } }),
      () => current && setHeld({ id, fetched: { state: 'missing' } }),
    );
    return () => {
      current = false;
    };
  }, [id, fetchCard]);
  return held.id === id ? held.fetched : { state: 'waiting' };
}
