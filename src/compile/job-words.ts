/** Content -> the questions of the job page, and the words of its proof, in the form that `src/job/card-types.ts` reads. */
import type { Content, Kind } from '../model/schema/index.ts';

/** Sorted by title. `hash` names the content. */
export function jobWords(content: Content, hash: string) {
  const list = <File, Words extends { readonly title: string }>(
    files: ReadonlyMap<string, File>,
    words: (id: string, file: File) => Words,
  ) => [...files].map(([id, file]) => words(id, file)).sort((a, b) => (a.title < b.title ? -1 : 1));
  const question = (id: string, file: { title: string; asks: string; also: readonly string[] }) => ({
    id,
    title: file.title,
    asks: file.asks,
    also: file.also,
  });
  const named = (id: string, file: { title: string; also: readonly string[] }) => ({ id, title: file.title, also: file.also });
  return {
    hash,
    symptoms: list(content.symptoms, (id, file) => ({
      ...question(id, file),
      group: file.group,
      driving: file.driving,
      drivingWhy: file.drivingWhy,
    })),
    conditions: list(content.conditions, question),
    recentWork: list(content['recent-work'], question),
    traits: list(content.traits, (id, file) => ({
      ...question(id, file),
      values: file.values.map((value) => ({ id: value.id, title: value.title, look: value.look ?? '' })),
    })),
    parts: list(content.parts, named),
    tools: list(content.tools, named),
    codeGroups: Object.fromEntries(
      [...content.codes].map(([id, { meaning, lamp, driving, drivingWhy }]) => [id, { meaning, lamp, driving, drivingWhy }]),
    ),
    codes: Object.fromEntries([...content.codes].flatMap(([group, file]) => Object.keys(file.codes).map((code) => [code, group] as const))),
    families: Object.fromEntries(
      [...content.families].map(([id, { firstLook, driving, monitors }]) => [id, { firstLook, driving, monitors }]),
    ),
    monitors: Object.fromEntries(
      [...content.monitors].map(([id, { title, runs, before, drive, minutes }]) => [
        id,
        { id, title, continuous: runs === 'continuous', before, drive, minutes },
      ]),
    ),
    renamed: renamedIds(content),
  };
}

/** Files say under `formerly` what they were called before. */
function renamedIds(content: Content): Record<string, Record<string, string>> {
  return Object.fromEntries(
    (Object.keys(content) as Kind[]).flatMap((kind) => {
      const pairs = [...content[kind]].flatMap(([id, file]) =>
        ((file as { readonly formerly?: readonly string[] }).formerly ?? []).map((old) => [old, id] as const),
      );
      return pairs.length > 0 ? [[kind, Object.fromEntries(pairs)] as const] : [];
    }),
  );
}
