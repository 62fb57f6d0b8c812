/** Compressed twins of text files, so that the server need not compress at each request. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { brotliCompress, constants, gzip } from 'node:zlib';

const compressible = /\.(html|css|js|mjs|svg|json|xml|txt|webmanifest)$/;
const leastBytes = 1024;

/** Writes .br and .gz beside each text file of at least a kilobyte. Returns how many files have twins. */
export async function compressFiles(folder: string): Promise<number> {
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => compressible.test(path))
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
