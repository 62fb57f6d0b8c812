import { z } from 'zod';
import { line, minutes, money, needs, prose, reference, references, sourceReference } from './scalars.ts';

const share = z.number().gt(0).max(1).describe('Share among its siblings; siblings sum to 1.');
const why = prose.optional().describe('Why this share: the physical or statistical reason.');

export interface Leaf {
  cause: string;
  share: number;
  why?: string | undefined;
}
export interface Branch {
  title: string;
  share: number;
  why?: string | undefined;
  branches: (Leaf | Branch)[];
}

const leaf = z.strictObject({ cause: reference('causes'), share, why });
const branch: z.ZodType<Branch> = z.strictObject({
  title: line,
  share,
  why,
  get branches() {
    return z
      .array(z.union([leaf, branch]))
      .min(1)
      .describe('What lies under it: causes, or further branches.');
  },
});

export const family = z
  .strictObject({
    title: line.describe('Name of the fault family, as the trade says it.'),
    summary: line.describe('One sentence for lists.'),
    what: prose.describe('What goes wrong physically, and how the control module notices it.'),
    commonness: z
      .number()
      .gt(0)
      .max(1)
      .describe('Share of this family among older petrol cars with a lamp on. Used when there is no code. Families need not sum to 1.'),
    needs: needs.describe(
      'What a car must have for these codes to be stored at all: { secondary-air: [fitted] }. A stored code then proves it.',
    ),
    remainder: z.number().min(0.005).max(0.5).describe('Chance that the cause is none of those listed. Never zero.'),
    handOver: z
      .strictObject({ money, attendedMinutes: minutes, why: prose })
      .describe(
        'All-in cost of handing the car to a professional for this family: their diagnosis and the usual repair. The plan must beat it or stop there.',
      ),
    firstLook: prose.describe('What to rule out before anything is bought or taken apart, in this family.'),
    driving: prose.describe('Whether one may drive with this fault, and for how long.'),
    monitors: references('monitors').min(1).describe('Readiness monitors that judge this family: what must run after the repair.'),
    tree: z
      .array(z.union([leaf, branch]))
      .min(1)
      .describe('The cause tree: system, subsystem, part; each with its share among its siblings.'),
    eitherFirst: z
      .strictObject({ steps: references('checks').min(2).max(4), why: prose })
      .optional()
      .describe(
        'Checks of which any may begin the order, and why that is as good: the check then does not warn that the order flips between them.',
      ),
    formed: prose.describe('How the shares were formed: whose opinion, from what.'),
    related: references('families').default([]),
    source: sourceReference,
  })
  .describe('A fault family: its cause tree and what goes with it. Which checks belong to it is computed.');
export type FamilyFile = z.infer<typeof family>;
