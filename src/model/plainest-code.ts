/** One code to stand for its family, where a family as a whole is to be planned. */
import type { CodeFacts, Knowledge } from '../engine/knowledge.ts';

/** The code of a family that says least beyond it, the first of equals; none when no code leads to it. */
export function plainestCode(family: string, knowledge: Knowledge): string | undefined {
  const evidence = (code: CodeFacts) => Object.keys(code.evidence).length;
  return Object.values(knowledge.codes)
    .filter((code) => code.family === family)
    .sort((a, b) => evidence(a) - evidence(b) || (a.id < b.id ? -1 : 1))[0]?.id;
}
