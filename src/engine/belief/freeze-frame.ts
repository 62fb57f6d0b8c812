/** Freeze-frame numbers -> the conditions that they say held. */
import type { FreezeFrame } from '../case.ts';
import type { Knowledge } from '../knowledge.ts';

/** Ids of conditions whose bounds all hold. A condition of which one number is missing is not concluded. */
export function conditionsOfFrame(frame: FreezeFrame | undefined, knowledge: Knowledge): readonly string[] {
  if (!frame) return [];
  return Object.values(knowledge.conditions)
    .filter((condition) => {
      const bounds = Object.entries(condition.freezeFrame);
      return (
        bounds.length > 0 &&
        bounds.every(([key, { above, below }]) => {
          const value = frame[key as keyof FreezeFrame];
          return value !== undefined && (above === undefined || value > above) && (below === undefined || value < below);
        })
      );
    })
    .map((condition) => condition.id);
}
