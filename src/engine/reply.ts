/**
 * Trouble codes from whatever a person can paste: typed lists, lines of a scan report, or the raw reply to a service 03, 07 or
 * 0A request (SAE J1979), on any of its buses. Never throws; says what it made of each line.
 */
import { assemble, type Frame } from './reply/assemble.ts';
import { readFrame } from './reply/frame.ts';
import { type CodeKind, type DecodedPayload, decodePayload } from './reply/payload.ts';
import { readTyped } from './reply/typed.ts';

export type { CodeKind } from './reply/payload.ts';

export interface FoundCode {
  readonly code: string;
  readonly kind: CodeKind;
  /** Address of the module that answered, as in the header (`7E8`); null when there was no header. */
  readonly module: string | null;
}

/** What was made of one piece of the text. */
export interface Understanding {
  readonly text: string;
  readonly as: string;
  /** false: nothing could be made of it. */
  readonly understood: boolean;
}

export interface Reply {
  /** In the order in which they stand, each kind of each code once. */
  readonly codes: readonly FoundCode[];
  readonly understanding: readonly Understanding[];
  /** Bytes A to D of service 01 PID 01, when they were among the lines. */
  readonly monitorBytes: readonly [number, number, number, number] | null;
}

/** Characters and lines that are read; a long report has a few thousand. */
const longest = 100_000;
const mostLines = 2000;

export function readReply(text: string): Reply {
  const codes = new Map<string, FoundCode>();
  const understanding: Understanding[] = [];
  const frames: Frame[] = [];
  let monitorBytes: Reply['monitorBytes'] = null;
  const add = (found: FoundCode) => {
    const key = `${found.code} ${found.kind} ${found.module ?? ''}`;
    if (!codes.has(key)) codes.set(key, found);
  };
  const takePayload = (source: string, decoded: DecodedPayload, module: string | null) => {
    for (const code of decoded.codes) add({ code, kind: decoded.kind, module });
    if (decoded.monitorBytes) monitorBytes = decoded.monitorBytes;
    const from = module === null ? '' : `Module ${module}: `;
    understanding.push({ text: source, as: from + decoded.says, understood: decoded.understood });
  };
  const flush = () => {
    for (const message of assemble(frames.splice(0))) takePayload(message.text, decodePayload(message), message.module);
  };

  for (const raw of text
    .slice(0, longest)
    .split(/\r\n|[\r\n]/)
    .slice(0, mostLines)) {
    const line = raw.trim();
    if (line === '') continue;
    const typed = readTyped(line);
    if (typed.codes.length > 0 || typed.chatter) {
      flush();
      for (const code of typed.codes) add({ code, kind: typed.kind, module: null });
      understanding.push({ text: line, as: typed.says, understood: true });
      continue;
    }
    const frame = readFrame(line);
    if (frame) frames.push(frame);
    else understanding.push({ text: line, as: 'No code, and no reply to a code request.', understood: false });
  }
  flush();
  return { codes: [...codes.values()], understanding, monitorBytes };
}

/** The codes alone, each once, however it is stored. */
export const codesOf = (reply: Reply): readonly string[] => [...new Set(reply.codes.map(({ code }) => code))];
