/** The job's name, other jobs, and everything about keeping it: state, export, import, link, print. */
import { useRef, useState } from 'preact/hooks';
import { fragmentOf } from '../keep/link.ts';
import { longestFile } from '../saved/form.ts';
import { useSession } from './context.ts';

const states = {
  kept: 'Kept on this device',
  writing: 'Writing…',
  full: 'The device is full: this change is not kept. Export the job, or free some space.',
  failed: 'The device refused to keep this change. Export the job to be safe.',
  'not-durable': 'This window keeps nothing after it is closed. Export the job before you leave.',
} as const;

export function KeepBar() {
  const session = useSession();
  const file = useRef<HTMLInputElement>(null);
  const [link, setLink] = useState('');
  const job = session.job.value;
  const state = session.keepState.value;
  const others = session.listings.value.filter(({ id }) => id !== job.id);
  const download = () => {
    const address = URL.createObjectURL(new Blob([session.exported()], { type: 'application/json' }));
    const anchor = document.createElement('a');
    anchor.href = address;
    anchor.download = `lampwise-${(job.name || job.inputs.codes.join('-') || 'job').toLowerCase().replace(/[^a-z0-9]+/g, '-')}.json`;
    anchor.click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
  };
  const share = async () => {
    const result = await fragmentOf(session.exported());
    if (!result.ok) {
      session.notice.value = result.says;
      return;
    }
    const address = `${location.origin}/job/${result.fragment}`;
    setLink(address);
    await navigator.clipboard?.writeText(address).then(
      () => {
        session.notice.value = 'The link is copied. It holds the whole job; whoever has it can read it.';
      },
      () => undefined,
    );
  };
  const read = async (chosen: File | undefined) => {
    if (!chosen) return;
    if (chosen.size > longestFile) session.notice.value = 'The file is far larger than any job. Nothing was changed.';
    else if (await session.importText(await chosen.text())) setLink('');
    if (file.current) file.current.value = '';
  };
  return (
    <section class="panel keep" aria-labelledby="keep-head">
      <h2 id="keep-head">This job</h2>
      <label class="field">
        <span>Name, such as the car</span>
        <input
          type="text"
          maxLength={120}
          value={job.name}
          onInput={(event) => session.do({ type: 'name', name: event.currentTarget.value }, 'name')}
        />
      </label>
      <p class={state === 'kept' || state === 'writing' ? 'quiet' : 'alarm'} role="status" data-keep={state}>
        {states[state]}
      </p>
      <div class="button-row">
        <button type="button" onClick={() => session.newJob()}>
          New job
        </button>
        <button type="button" onClick={() => print()}>
          Print the job sheet
        </button>
        <button type="button" onClick={download}>
          Export
        </button>
        <button type="button" onClick={() => file.current?.click()}>
          Import
        </button>
        <input
          ref={file}
          type="file"
          accept="application/json,.json"
          hidden
          onChange={(event) => void read(event.currentTarget.files?.[0])}
        />
        <button type="button" onClick={() => void share()}>
          Share by link
        </button>
      </div>
      <p class="quiet">
        Import also reads a case file of the command line. <a href="/data/job/job.schema.json">Form of an exported job</a>
      </p>
      {link && (
        <label class="field">
          <span>The link</span>
          <input type="text" readOnly value={link} onFocus={(event) => event.currentTarget.select()} />
        </label>
      )}
      {others.length > 0 && (
        <details>
          <summary>Other jobs on this device ({others.length})</summary>
          <ul class="plain">
            {others.map(({ id, name, savedAt }) => (
              <li key={id} class="button-row">
                <button type="button" onClick={() => void session.open(id)}>
                  {name || 'Job without a name'}, {new Date(savedAt).toLocaleString()}
                </button>
                <button
                  type="button"
                  onClick={() => {
                    if (confirm(`Delete “${name || 'Job without a name'}” from this device? It cannot be brought back.`))
                      void session.remove(id);
                  }}
                >
                  Delete<span class="unseen"> {name || 'job without a name'}</span>
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
