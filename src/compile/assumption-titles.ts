/** What an order takes for granted of the engine, in words: "Ignition type: one coil on each plug". */
import type { Assumption } from '../engine/default-case.ts';
import type { Content } from '../model/schema/index.ts';

export const assumptionTitles = (content: Content, assumptions: readonly Assumption[]): readonly string[] =>
  assumptions.map(({ trait, value }) => {
    const file = content.traits.get(trait)!;
    return `${file.title}: ${file.values.find((entry) => entry.id === value)!.title.toLowerCase()}`;
  });
