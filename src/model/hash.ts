/** A name for a state of the content: equal files give an equal hash, whatever their order. Not for security. */
import { isTemplate } from './content-path.ts';
import type { ContentFile } from './problem.ts';

/** 64-bit FNV-1a of bytes, as 16 hex digits. In 32-bit halves, so that browser, build and scripts agree and stay quick. */
export function fnv1a64(bytes: Iterable<number>): string {
  let high = 0xcbf29ce4;
  let low = 0x84222325;
  for (const byte of bytes) {
    low = (low ^ byte) >>> 0;
    // Multiply the 64-bit state by the prime 2^40 + 0x1b3.
    const product = low * 0x1b3;
    high = (Math.imul(high, 0x1b3) + Math.floor(product / 0x100000000) + ((low << 8) >>> 0)) >>> 0;
    low = product >>> 0;
  }
  return high.toString(16).padStart(8, '0') + low.toString(16).padStart(8, '0');
}

/** Bytes of the UTF-16 units of a text, low byte first. */
function* unitBytes(text: string): Generator<number> {
  for (let index = 0; index < text.length; index += 1) {
    const unit = text.charCodeAt(index);
    yield unit & 0xff;
    yield unit >> 8;
  }
}

/** FNV-1a over the UTF-16 units of all paths and texts but the templates', in the order of the paths, each closed by a mark of its own. */
export function contentHash(files: readonly ContentFile[]): string {
  function* bytes() {
    const content = files.filter((file) => !isTemplate(file.path));
    for (const file of content.sort((a, b) => (a.path < b.path ? -1 : 1))) yield* unitBytes(`${file.path}\u0000${file.text}\u0001`);
  }
  return fnv1a64(bytes());
}
