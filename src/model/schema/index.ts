/** Every kind of file: folder name, schema. The folder decides the kind. */
import type { z } from 'zod';
import { type CauseFile, cause } from './cause.ts';
import { type CheckFile, check } from './check.ts';
import { type FamilyFile, family } from './family.ts';
import * as vocabulary from './vocabulary.ts';

export const schemas = {
  families: family,
  causes: cause,
  checks: check,
  codes: vocabulary.codeGroup,
  symptoms: vocabulary.symptom,
  conditions: vocabulary.condition,
  tools: vocabulary.tool,
  cautions: vocabulary.caution,
  'set-ups': vocabulary.setUp,
  parts: vocabulary.part,
  'recent-work': vocabulary.recentWork,
  traits: vocabulary.trait,
  scopes: vocabulary.scope,
  'trim-signatures': vocabulary.trimSignature,
  monitors: vocabulary.monitor,
  terms: vocabulary.term,
  sources: vocabulary.source,
} as const satisfies Record<string, z.ZodType>;

export type Kind = keyof typeof schemas;
export const kinds = Object.keys(schemas) as Kind[];

/** The validated content with all its prose, by kind and id. */
export type Content = { readonly [K in Kind]: ReadonlyMap<string, z.infer<(typeof schemas)[K]>> };

export type { CauseFile, CheckFile, FamilyFile };
