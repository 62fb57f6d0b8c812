/** Finding a circle in a relation. */

/** The chain of ids by which `start` leads back to itself (start first, without its repetition), or null. Depth-first, O(edges). */
export function cycleThrough(start: string, next: (id: string) => readonly string[]): readonly string[] | null {
  const visited = new Set<string>();
  const walk = (id: string, chain: readonly string[]): readonly string[] | null => {
    for (const follower of next(id)) {
      if (follower === start) return chain;
      if (visited.has(follower)) continue;
      visited.add(follower);
      const found = walk(follower, [...chain, follower]);
      if (found) return found;
    }
    return null;
  };
  return walk(start, [start]);
}
