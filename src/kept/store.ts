/** Results kept between builds, by a key that names everything they depend on. A damaged or foreign entry is no entry. */
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

export const keptFolder = '.cache';

/** SHA-256 over the parts, each ended so that no two lists of parts give the same bytes. */
export function keyOf(...parts: readonly string[]): string {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(`${part.length}:`).update(part);
  return hash.digest('hex').slice(0, 40);
}

const seal = (kind: string, key: string, value: string): string => keyOf('sealed', kind, key, value);

/** The value kept under `key`, or null when there is none that was written whole, of this kind and under this key, by `keep`. */
export function kept<Value>(kind: string, key: string, folder = keptFolder): Value | null {
  try {
    const text = readFileSync(join(folder, kind, `${key}.json`), 'utf8');
    const end = text.indexOf('\n');
    const value = text.slice(end + 1);
    return text.slice(0, end) === seal(kind, key, value) ? (JSON.parse(value) as Value) : null;
  } catch {
    return null;
  }
}

/** Keeps a JSON value. The file appears whole or not at all. */
export function keep(kind: string, key: string, value: unknown, folder = keptFolder): void {
  const text = JSON.stringify(value);
  mkdirSync(join(folder, kind), { recursive: true });
  const path = join(folder, kind, `${key}.json`);
  writeFileSync(`${path}.${process.pid}`, `${seal(kind, key, text)}\n${text}`);
  renameSync(`${path}.${process.pid}`, path);
}

/** Hash of all source files below a folder, by path and text. */
export function sourcesHash(folder: string): string {
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts'))
    .sort();
  return keyOf(...paths.flatMap((path) => [path, readFileSync(join(folder, path), 'utf8')]));
}
