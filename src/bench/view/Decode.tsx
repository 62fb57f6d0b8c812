/** Codes and bytes pasted from a scan tool. */
import { useState } from 'preact/hooks';
import { type Decoded, decode } from '../calc/decode.ts';
import { Result, TakeIntoJob, Waiting } from './parts.tsx';

export interface DecodeData {
  /** Codes that have a page. */
  readonly codes: readonly string[];
}

const example = '7E8 06 43 02 03 01 01 71\n41 0C 1A F8\nP0420';

export function Decode({ data }: { readonly data: DecodeData }) {
  const [text, type] = useState(example);
  const decoded = decode(text);
  const known = decoded.codes.map(({ code }) => code).filter((code) => data.codes.includes(code));
  return (
    <>
      <div class="bench-form">
        <div class="entry">
          <label class="entry-main">
            <span>Codes, or bytes as the adapter shows them</span>
            <textarea
              rows={5}
              spellcheck={false}
              autocapitalize="characters"
              value={text}
              onInput={(event) => type(event.currentTarget.value)}
            />
          </label>
          <p class="entry-hint">One reply a line. With or without header, blanks and count.</p>
        </div>
      </div>
      <Result>
        {decoded.lines.length === 0 ? <Waiting>Type or paste something.</Waiting> : <Found decoded={decoded} pages={data.codes} />}
        {known.length > 0 && <TakeIntoJob situation={{ codes: [...new Set(known)] }} what={[...new Set(known)].join(', ')} />}
      </Result>
    </>
  );
}

function Found({ decoded, pages }: { readonly decoded: Decoded; readonly pages: readonly string[] }) {
  // A code typed plainly needs no second line that repeats it.
  const said = decoded.lines.filter(({ text, as }) => text !== as);
  return (
    <>
      {decoded.codes.length > 0 && (
        <ul class="found-codes">
          {decoded.codes.map((code) => (
            <li key={`${code.code} ${code.kind} ${code.module}`}>
              <b class="code">{pages.includes(code.code) ? <a href={`/codes/${code.code.toLowerCase()}/`}>{code.code}</a> : code.code}</b>
              <span>
                {code.kind}
                {code.module === null ? '' : ` in module ${code.module}`}; {code.subsystem ?? code.area}; defined by{' '}
                {code.definedBy === 'standard' ? 'the standard' : 'the maker'}
              </span>
              <span class="code">
                {code.bytes} <small>= {code.bits}</small>
              </span>
            </li>
          ))}
        </ul>
      )}
      <ul class="understood">
        {said.map((line, index) => (
          <li key={`${index} ${line.text}`}>
            <code>{line.text}</code>
            <span>
              {!line.understood && <b class="mark">not read</b>} {line.as}
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}
