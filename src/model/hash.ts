/** A name for a state of the content: equal files give an equal hash, whatever their order. Not for security. */
import { isTemplate } from './content-path.ts';
import type { ContentFile } from './problem.ts';

/** 64-bit FNV-1a, in 32-bit halves, so that browser, build and scripts agree and stay quick. */
class Fnv1a64 {
  private high = 0xcbf29ce4;
  private low = 0x84222325;

  add(byte: number): void {
    const low = (this.low ^ byte) >>> 0;
    // Multiply the 64-bit state by the prime 2^40 + 0x1b3.
    const product = low * 0x1b3;
    this.high = (Math.imul(this.high, 0x1b3) + Math.floor(product / 0x100000000) + ((low << 8) >>> 0)) >>> 0;
    this.low = product >>> 0;
  }

  /** The UTF-16 units of a text, low byte first. */
  addText(text: string): void {
    for (let index = 0; index < text.length; index += 1) {
      const unit = text.charCodeAt(index);
      this.add(unit & 0xff);
      this.add(unit >> 8);
    }
  }

  get hex(): string {
    return this.high.toString(16).padStart(8, '0') + this.low.toString(16).padStart(8, '0');
  }
}

/** 64-bit FNV-1a of bytes, as 16 hex digits. */
export function fnv1a64(bytes: Iterable<number>): string {
  const hash = new Fnv1a64();
  for (const byte of bytes) hash.add(byte);
  return hash.hex;
}

/** FNV-1a over the UTF-16 units of all paths and texts but the templates', in the order of the paths, each closed by a mark of its own. */
export function contentHash(files: readonly ContentFile[]): string {
  const hash = new Fnv1a64();
  const content = files.filter((file) => !isTemplate(file.path));
  for (const file of content.sort((a, b) => (a.path < b.path ? -1 : 1))) hash.addText(`${file.path}\u0000${file.text}\u0001`);
  return hash.hex;
}
