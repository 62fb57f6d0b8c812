/** The small list that answers at once while typing: codes, symptoms with all that people call them, families, checks, tools. */
import { address, codeAddress } from './address.ts';
import type { Catalogue } from './catalogue.ts';

/** [kind, title, address, other names] */
export type QuickEntry = readonly [kind: string, title: string, href: string, also: readonly string[]];

export function quickIndex({ content, knowledge }: Catalogue): readonly QuickEntry[] {
  const titled = (kind: string, folder: 'symptoms' | 'families' | 'tools' | 'terms' | 'causes' | 'checks' | 'parts'): QuickEntry[] =>
    [...content[folder]].map(([id, file]) => [kind, file.title, address(folder, id), 'also' in file ? file.also : []] as const);
  return [
    ...titled('Symptom', 'symptoms'),
    ...titled('Family', 'families'),
    ...titled('Cause', 'causes'),
    ...titled('Check', 'checks'),
    ...titled('Tool', 'tools'),
    ...titled('Part', 'parts'),
    ...titled('Term', 'terms'),
    ...Object.values(knowledge.codes).map((code) => ['Code', code.title, codeAddress(code.id), [code.id]] as const),
  ];
}
