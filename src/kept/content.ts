/** Content that a build has checked and compiled, handed over to the process that makes its pages: by the hash of the files. */
import type { Knowledge } from '../engine/knowledge.ts';
import { type Content, kinds } from '../model/schema/index.ts';
import { keep, kept, keptFolder } from './store.ts';

export interface CheckedContent {
  readonly content: Content;
  readonly knowledge: Knowledge;
}

type Written = { readonly content: Readonly<Record<string, readonly (readonly [string, unknown])[]>>; readonly knowledge: Knowledge };

/** Keeps the content of `knowledge.hash`. */
export function keepContent({ content, knowledge }: CheckedContent, folder = keptFolder): void {
  const written: Written = { content: Object.fromEntries(kinds.map((kind) => [kind, [...content[kind]]])), knowledge };
  keep('content', knowledge.hash, written, folder);
}

/** The content of that hash, entries in the order in which they were; null when it is not kept. */
export function keptContent(hash: string, folder = keptFolder): CheckedContent | null {
  const written = kept<Written>('content', hash, folder);
  if (!written) return null;
  const content = Object.fromEntries(kinds.map((kind) => [kind, new Map(written.content[kind])])) as unknown as Content;
  return { content, knowledge: written.knowledge };
}
