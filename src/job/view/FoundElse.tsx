/** "Found something else": the cause was seen, in whatever way. What is asked then is fetched when it is wanted. */
import { useState } from 'preact/hooks';
import { Later } from './Later.tsx';

const load = () => import('./WhatWasFound.tsx').then(({ WhatWasFound }) => WhatWasFound);

export function FoundElse() {
  const [open, setOpen] = useState(false);
  return open ? (
    <Later load={load} props={{ close: () => setOpen(false) }} />
  ) : (
    <button type="button" aria-expanded={false} onClick={() => setOpen(true)}>
      I found something else
    </button>
  );
}
