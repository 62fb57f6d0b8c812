/** Compressed twins of text files, so that the server need not compress at each request. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { extname, join } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';

/** Files that get twins, by ending, and the type that the server sends a twin as. */
export const twinTypes: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.json': 'application/json; charset=utf-8',
  '.xml': 'application/xml',
  '.txt': 'text/plain; charset=utf-8',
  '.webmanifest': 'application/manifest+json',
};
const leastBytes = 1024;

/** Writes .br and .gz beside each text file of at least a kilobyte. Returns how many files have twins. */
export async function compressFiles(folder: string): Promise<number> {
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => extname(path) in twinTypes)
    .sort();
  let count = 0;
  for (const path of paths) {
    const full = join(folder, path);
    const bytes = readFileSync(full);
    if (bytes.length < leastBytes) continue;
    const [brotli, zipped] = await Promise.all([
      promisify(brotliCompress)(bytes, {
        params: { [constants.BROTLI_PARAM_QUALITY]: 9, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length },
      }),
      promisify(gzip)(bytes, { level: 9 }),
    ]);
    writeFileSync(`${full}.br`, brotli);
    writeFileSync(`${full}.gz`, zipped);
    count += 1;
  }
  return count;
}
