/** Addresses on the site: one function, so that no page spells one by hand. */
import type { Kind } from '../model/schema/index.ts';

/** Kinds that have a page for each file, with the folder of those pages. */
const folders = {
  families: 'families',
  causes: 'causes',
  checks: 'checks',
  symptoms: 'symptoms',
  conditions: 'conditions',
  tools: 'tools',
  cautions: 'cautions',
  'set-ups': 'set-ups',
  parts: 'parts',
  terms: 'terms',
  monitors: 'monitors',
  sources: 'sources',
  'recent-work': 'recent-work',
} as const satisfies Partial<Record<Kind, string>>;

export type PageKind = keyof typeof folders;
export const pageKinds = Object.keys(folders) as PageKind[];

/** Path of the page of one thing: `/causes/worn-spark-plugs/`. */
export const address = (kind: PageKind, id: string): string => `/${folders[kind]}/${id}/`;

/** Path of a trouble code's page: `/codes/p0301/`. */
export const codeAddress = (code: string): string => `/codes/${code.toLowerCase()}/`;

/** Path that starts a job from a symptom. */
export const jobOfSymptom = (symptom: string): string => `/job/#symptoms=${symptom}`;

/** Path that starts a job with codes; the fragment never leaves the device. */
export const jobAddress = (codes: readonly string[]): string => (codes.length > 0 ? `/job/#codes=${codes.join(',')}` : '/job/');
