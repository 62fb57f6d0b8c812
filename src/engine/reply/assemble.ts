/** Frames -> messages: ISO 15765-2 single, first and consecutive frames, and the numbered lines that adapters make of them. */

export interface Frame {
  readonly text: string;
  readonly module: string | null;
  readonly bus: 'can' | 'legacy' | 'plain' | 'numbered' | 'length';
  /** Line number of a numbered line; else 0. */
  readonly sequence: number;
  readonly bytes: readonly number[];
}

export interface Message {
  readonly text: string;
  readonly module: string | null;
  /** Whether a count byte is to be expected: yes on CAN, no before it, unknown without headers. */
  readonly counted: boolean | null;
  readonly bytes: readonly number[];
  /** Bytes that the first frame announced, when fewer arrived. */
  readonly announced: number | null;
}

interface Open {
  text: string;
  length: number | null;
  bytes: number[];
  next: number;
}

/** Messages in the order in which they begin. Several modules may interleave. */
export function assemble(frames: readonly Frame[]): readonly Message[] {
  const messages: Message[] = [];
  const open = new Map<string, Open>();
  let announcedLength: number | null = null;
  const close = (key: string) => {
    const message = open.get(key);
    if (!message) return;
    open.delete(key);
    messages.push({
      text: message.text,
      module: key === numberedKey ? null : key,
      counted: true,
      bytes: message.length === null ? message.bytes : message.bytes.slice(0, message.length),
      announced: message.length !== null && message.bytes.length < message.length ? message.length : null,
    });
  };
  const append = (key: string, frame: Frame, bytes: readonly number[]) => {
    const message = open.get(key)!;
    message.bytes.push(...bytes);
    message.text += `\n${frame.text}`;
    message.next = (message.next + 1) % 16;
    if (message.length !== null && message.bytes.length >= message.length) close(key);
  };

  for (const frame of frames) {
    if (frame.bus === 'length') {
      announcedLength = frame.bytes[0]!;
      continue;
    }
    if (frame.bus === 'numbered') {
      if (frame.sequence === 0 && !(open.get(numberedKey)?.next === 0)) {
        close(numberedKey);
        open.set(numberedKey, { text: frame.text, length: announcedLength, bytes: [...frame.bytes], next: 1 });
        announcedLength = null;
      } else if (open.has(numberedKey)) append(numberedKey, frame, frame.bytes);
      else messages.push({ text: frame.text, module: null, counted: true, bytes: [], announced: null });
      continue;
    }
    if (frame.bus !== 'can') {
      messages.push({
        text: frame.text,
        module: frame.module,
        counted: frame.bus === 'legacy' ? false : null,
        bytes: frame.bytes,
        announced: null,
      });
      continue;
    }
    const module = frame.module!;
    const [control = 0, ...rest] = frame.bytes;
    const kind = control >> 4;
    if (kind === 1) {
      close(module);
      open.set(module, { text: frame.text, length: ((control & 0xf) << 8) | (rest[0] ?? 0), bytes: rest.slice(1), next: 1 });
    } else if (kind === 2 && open.get(module)?.next === (control & 0xf)) append(module, frame, rest);
    else
      messages.push({
        text: frame.text,
        module,
        counted: true,
        bytes: kind === 0 ? rest.slice(0, control & 0xf) : [],
        announced: kind === 0 && rest.length < (control & 0xf) ? control & 0xf : null,
      });
  }
  for (const key of [...open.keys()]) close(key);
  return messages;
}

const numberedKey = '';
