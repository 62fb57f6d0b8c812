/** Content files -> every problem that `npm run check` reports: those of loading, and what only the worked-out orders show. */

import type { Strengths } from '../engine/plan/robustness.ts';
import { compileKnowledge } from './compile-knowledge.ts';
import { flippingOrders } from './firmness/orders.ts';
import { loadContent } from './load.ts';
import { byPosition, type ContentFile, type Problem } from './problem.ts';

/** As `loadContent`; orders are worked out only where nothing is wrong, for a broken world has none. Sorted. */
export function checkContent(files: readonly ContentFile[], unread: readonly string[], strengths: Strengths): readonly Problem[] {
  const { content, documents, problems } = loadContent(files, unread);
  if (unread.length > 0 || problems.some(({ severity }) => severity === 'error')) return problems;
  const knowledge = compileKnowledge(content, 'unnamed');
  return [...problems, ...flippingOrders({ content, documents, knowledge, strengths })].sort(byPosition);
}
