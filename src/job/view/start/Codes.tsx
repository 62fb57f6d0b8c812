/** Codes in any shape, and what was understood of them. */
import { readReply } from '../../../engine/reply.ts';
import { useSession } from '../context.ts';
import { Moved } from '../Moved.tsx';

export function Codes() {
  const session = useSession();
  const { codesText, codes } = session.job.value.inputs;
  const { knowledge } = session.data;
  const reply = readReply(codesText);
  return (
    <>
      <label class="field">
        <span>Type or paste codes: a list, lines of a scan report, or the raw reply of the car</span>
        <textarea
          rows={3}
          spellcheck={false}
          autocapitalize="characters"
          value={codesText}
          placeholder="P0301, P0304   or   43 02 03 01 03 04"
          onInput={(event) => session.do({ type: 'codes', text: event.currentTarget.value }, 'codes')}
        />
      </label>
      <div role="status">
        {codes.length > 0 && (
          <ul class="understood">
            {codes.map((code) => (
              <li key={code}>
                <span class="code">{code}</span>{' '}
                {knowledge.codes[code] ? (
                  <a href={`/codes/${code.toLowerCase()}/`}>{knowledge.codes[code].title}</a>
                ) : (
                  'is kept with the job, but no cause tree here serves it.'
                )}
              </li>
            ))}
          </ul>
        )}
        {reply.understanding.some(({ text, as }) => as !== text.toUpperCase()) && codesText.trim() !== '' && (
          <details class="reading-back">
            <summary>How it was read</summary>
            <ul>
              {reply.understanding.map(({ text, as, understood }, index) => (
                <li key={`${index} ${text}`}>
                  <code>{text}</code> {understood ? '→' : '✗'} {as}
                </li>
              ))}
            </ul>
          </details>
        )}
      </div>
      <Moved kinds={['code', 'cylinders', 'banks']} />
    </>
  );
}
