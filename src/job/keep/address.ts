/** The part of the job page's address after `#`: which job, or what it begins with. A whole job in it: `link.ts`. */

/** Codes named in a fragment `#codes=P0301,P0302`; null when it names none. */
export const codesInFragment = (fragment: string): string | null => {
  const match = fragment.match(/^#codes=([A-Za-z0-9,%]{5,200})$/);
  return match ? match[1]!.replaceAll('%2C', ',').replaceAll(',', ', ') : null;
};

/** The job that an address names, `#job=ID`; null when it names none. */
export const jobInFragment = (fragment: string): string | null => fragment.match(/^#job=([A-Za-z0-9-]{1,60})$/)?.[1] ?? null;

/** The address of a kept job, and of one that has nothing in it yet. */
export const fragmentOfJob = (id: string): string => `#job=${id}`;
export const newJobFragment = '#new';

/** Symptoms named in a fragment `#symptoms=a,b`; empty when it names none. */
export const symptomsInFragment = (fragment: string): readonly string[] =>
  fragment
    .match(/^#symptoms=([a-z0-9,-]{1,500})$/)?.[1]
    ?.split(',')
    .filter(Boolean) ?? [];
