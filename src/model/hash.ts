/** A name for a state of the content: equal files give an equal hash, whatever their order. Not for security. */
import type { ContentFile } from './problem.ts';

/** 64-bit FNV-1a over paths and texts in path order, as 16 hex digits. Pure, so that browser, build and scripts agree. */
export function contentHash(files: readonly ContentFile[]): string {
  let high = 0xcbf29ce4;
  let low = 0x84222325;
  const mix = (text: string) => {
    for (let index = 0; index < text.length; index += 1) {
      const code = text.charCodeAt(index);
      for (const byte of [code & 0xff, code >> 8]) {
        low = (low ^ byte) >>> 0;
        // Multiply the 64-bit state by the prime 2^40 + 0x1b3 in 32-bit halves.
        const product = low * 0x1b3;
        high = (Math.imul(high, 0x1b3) + Math.floor(product / 0x100000000) + ((low << 8) >>> 0)) >>> 0;
        low = product >>> 0;
      }
    }
  };
  for (const file of [...files].sort((a, b) => (a.path < b.path ? -1 : 1))) {
    mix(file.path);
    mix('\u0000');
    mix(file.text);
    mix('\u0001');
  }
  return high.toString(16).padStart(8, '0') + low.toString(16).padStart(8, '0');
}
