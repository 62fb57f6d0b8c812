/** Pagefind: the built pages -> an index that the search reads piece by piece. */
import { close, createIndex } from 'pagefind';

/** Indexes the pages below `folder` and hands each file of the index to `write`. Returns the number of pages; throws with Pagefind's own words. */
export async function writeSearchIndex(folder: string, write: (path: string, bytes: Uint8Array) => void): Promise<number> {
  try {
    const { index, errors: startErrors } = await createIndex({ forceLanguage: 'en' });
    if (!index) throw new Error(`Pagefind did not start: ${startErrors.join('; ')}`);
    const { page_count: pages, errors } = await index.addDirectory({ path: folder });
    if (errors.length > 0) throw new Error(`Pagefind could not read the pages: ${errors.join('; ')}`);
    const { files, errors: fileErrors } = await index.getFiles();
    if (fileErrors.length > 0) throw new Error(`Pagefind could not write its index: ${fileErrors.join('; ')}`);
    // Its own user interface is not used.
    for (const { path, content } of files) if (!/^pagefind-(ui|modular-ui|component-ui|highlight)/.test(path)) write(path, content);
    return pages;
  } finally {
    await close();
  }
}
