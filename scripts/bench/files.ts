import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** All files below a folder, by their path from there. */
export function filesIn(folder: string): readonly { readonly path: string; readonly bytes: number }[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .map((path) => ({ path: path.slice(join(folder).length + 1), bytes: statSync(path).size }));
}
