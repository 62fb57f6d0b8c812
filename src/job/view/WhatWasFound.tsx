/** Which cause was found, or none that is listed, with a note for the sheet. */
import { useState } from 'preact/hooks';
import { useSession } from './context.ts';
import { SearchList } from './start/Search.tsx';

export function WhatWasFound({ close }: { readonly close: () => void }) {
  const session = useSession();
  const [note, setNote] = useState('');
  const { knowledge } = session.data;
  const found = (cause: string | null) => {
    session.answer({ kind: 'found', cause }, note);
    close();
  };
  const causes = session.belief.value.causes.flatMap(({ id }) =>
    id === null ? [] : [{ id, title: knowledge.causes[id]!.title, also: [] as readonly string[] }],
  );
  return (
    <fieldset class="found-else">
      <legend>What did you find?</legend>
      <SearchList label="Search a cause" items={causes} picked={() => false} first={5}>
        {({ id, title }) => (
          <button type="button" onClick={() => found(id)}>
            {title}
          </button>
        )}
      </SearchList>
      <label class="field">
        <span>Note for the job sheet</span>
        <input type="text" maxLength={500} value={note} onInput={(event) => setNote(event.currentTarget.value)} />
      </label>
      <button type="button" onClick={() => found(null)}>
        None of these: something that is not listed
      </button>
      <button type="button" onClick={close}>
        Back
      </button>
    </fieldset>
  );
}
