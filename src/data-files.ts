/**
 * The JSON files below /data/: what the job page and the search field read, and the export for other programs. A build writes
 * them itself, since a route of Astro's takes several times as long for each; `npm run dev` serves them one by one.
 */
import { sheets as benches } from './bench/sheets/index.ts';
import type { Catalogue } from './compile/catalogue.ts';
import { familyExport, knowledgeExport, orderExport } from './compile/export.ts';
import { exportSchemas } from './compile/export-schemas.ts';
import { checkCard, repairCard, sharedCards } from './compile/job-cards.ts';
import { jobWords } from './compile/job-words.ts';
import { quickIndex } from './compile/quick-index.ts';
import { defaultCase } from './engine/default-case.ts';
import type { CheckCard, JobWords, RepairCard, SharedCards } from './job/card-types.ts';
import { savedSchema } from './job/saved/schema.ts';
import type { CodeOrder } from './kept/code-orders.ts';

export interface DataFile {
  /** Below /data/, without `.json`. */
  readonly path: string;
  readonly value: () => unknown;
}

/** Every data file of the site. `orderOfCode` gives the order that a code's own page shows. */
export function dataFiles(catalogue: Catalogue, orderOfCode: (code: string) => CodeOrder): readonly DataFile[] {
  const { content, knowledge } = catalogue;
  const each = (ids: Iterable<string>, path: (id: string) => string, value: (id: string) => unknown): DataFile[] =>
    [...ids].map((id) => ({ path: path(id), value: () => value(id) }));
  return [
    { path: 'knowledge', value: () => knowledgeExport(catalogue) },
    { path: 'quick', value: () => quickIndex(catalogue) },
    ...each(
      Object.keys(exportSchemas),
      (name) => `${name}.schema`,
      (name) => exportSchemas[name as keyof typeof exportSchemas],
    ),
    ...each(
      content.families.keys(),
      (id) => `families/${id}`,
      (id) => familyExport(catalogue, id),
    ),
    ...each(
      Object.keys(knowledge.codes),
      (code) => `orders/${code.toLowerCase()}`,
      (code) => {
        const { formulation, order } = orderOfCode(code);
        return orderExport(catalogue, code, defaultCase([code], knowledge), formulation, order);
      },
    ),
    // What the job page reads: the engine's knowledge, its own words, and cards that it fetches when a step needs them.
    { path: 'job/knowledge', value: () => knowledge },
    { path: 'job/words', value: () => jobWords(content, knowledge.hash) satisfies JobWords },
    { path: 'job/shared', value: () => sharedCards(catalogue) satisfies SharedCards },
    { path: 'job/job.schema', value: () => savedSchema },
    ...each(
      content.causes.keys(),
      (id) => `job/repairs/${id}`,
      (id) => repairCard(catalogue, id) satisfies RepairCard,
    ),
    ...each(
      content.checks.keys(),
      (id) => `job/checks/${id}`,
      (id) => {
        const sums = benches
          .filter(({ checks }) => checks.includes(id))
          .map(({ title, id: bench }) => ({ title, href: `/bench/${bench}/` }));
        return { ...checkCard(catalogue, id), sums } satisfies CheckCard;
      },
    ),
  ];
}
