/** What the page and its worker say to each other. */
import type { Case } from '../../engine/case.ts';
import type { Knowledge } from '../../engine/knowledge.ts';
import type { OtherOrder, Outlook } from './outlook.ts';
import type { Proposal } from './proposal.ts';

export type Request =
  | { readonly kind: 'knowledge'; readonly knowledge: Knowledge }
  | { readonly kind: 'rank'; readonly turn: number; readonly situation: Case }
  | { readonly kind: 'compare'; readonly turn: number; readonly situation: Case };

export type Response =
  | { readonly kind: 'proposals'; readonly turn: number; readonly proposals: readonly Proposal[]; readonly milliseconds: number }
  | { readonly kind: 'outlook'; readonly turn: number; readonly outlook: Outlook; readonly milliseconds: number }
  | { readonly kind: 'refined'; readonly turn: number; readonly outlook: Outlook; readonly milliseconds: number }
  | { readonly kind: 'orders'; readonly turn: number; readonly orders: readonly OtherOrder[]; readonly milliseconds: number }
  | { readonly kind: 'failed'; readonly turn: number; readonly message: string };
