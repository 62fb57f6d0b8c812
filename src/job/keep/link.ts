/** A job in the fragment of an address: compressed, so that nothing leaves the device and nothing is stored elsewhere. */

/** Longest fragment that chat and mail programs carry without cutting it. Common practice, no source. */
export const longestFragment = 8000;
/** Most that a fragment may unfold to: a small one can hold a huge text. */
const longestText = 2_000_000;

export type LinkResult = { readonly ok: true; readonly fragment: string } | { readonly ok: false; readonly says: string };

const asBase64Url = (bytes: Uint8Array): string => {
  let text = '';
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
};

/** A whole job is shared; figures are given to a job, new or open. */
export type Carried = 'shared' | 'given';

/** Text -> `#shared=...` or `#given=...`, or why not. */
export async function fragmentOf(text: string, as: Carried = 'shared'): Promise<LinkResult> {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  const fragment = `#${as}=${asBase64Url(new Uint8Array(await new Response(stream).arrayBuffer()))}`;
  return fragment.length <= longestFragment
    ? { ok: true, fragment }
    : {
        ok: false,
        says: `The job is too long for a link: ${fragment.length} characters, ${longestFragment} fit. Export it as a file instead.`,
      };
}

/** The text in a fragment; null when it is none of ours or damaged. */
export async function textOf(fragment: string): Promise<string | null> {
  const match = fragment.match(/^#(?:shared|given)=([A-Za-z0-9_-]+)$/);
  if (!match) return null;
  try {
    const packed = atob(match[1]!.replaceAll('-', '+').replaceAll('_', '/'));
    const bytes = Uint8Array.from(packed, (character) => character.charCodeAt(0));
    const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw')).getReader();
    const pieces: Uint8Array<ArrayBuffer>[] = [];
    let length = 0;
    for (;;) {
      const { done, value } = await reader.read();
      if (done) break;
      length += value.length;
      if (length > longestText) {
        await reader.cancel();
        return null;
      }
      pieces.push(value as Uint8Array<ArrayBuffer>);
    }
    return await new Blob(pieces).text();
  } catch {
    return null;
  }
}
