/** The built pages as files: addresses, links, fragments. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { builtSite } from '../browser.ts';

export interface BuiltPage {
  /** Address on the site: `/codes/p0301/`. */
  readonly path: string;
  readonly html: string;
}

/** Paths of all files below a folder, with a slash in front, sorted. */
export const allFiles = (folder = builtSite): readonly string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => `/${join(entry.parentPath, entry.name).slice(join(folder).length + 1)}`)
    .sort();

export const allPages = (folder = builtSite): readonly BuiltPage[] =>
  allFiles(folder)
    .filter((file) => file.endsWith('.html'))
    .map((file) => ({ path: file.replace(/index\.html$/, ''), html: readFileSync(join(folder, file), 'utf8') }));

const unescaped = (text: string): string =>
  text.replaceAll('&#39;', "'").replaceAll('&#38;', '&').replaceAll('&quot;', '"').replaceAll('&amp;', '&');

/** Values of an attribute, wherever it stands in a tag. */
export const attributes = (html: string, name: string): readonly string[] =>
  [...html.matchAll(new RegExp(`<[a-z][^>]*?\\s${name}="([^"]*)"`, 'gi'))].map((match) => unescaped(match[1]!));
