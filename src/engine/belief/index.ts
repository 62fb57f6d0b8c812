export { type Belief, belief, checkRow, familiesOf, type Hypothesis } from './belief.ts';
export {
  banksOf,
  type CylinderGeometry,
  type CylinderPattern,
  companionPairs,
  cylinderPatterns,
  neighbourPairs,
  patternsOf,
  type UsualFiringOrder,
  usualFiringOrders,
} from './cylinders.ts';
export type { Evidence, EvidenceKind } from './evidence.ts';
export { conditionsOfFrame } from './freeze-frame.ts';
export { inKnownWords } from './known-words.ts';
export { type Movement, movements } from './movements.ts';
export { type CauseId, existence, prior } from './prior.ts';
export { bothNeeds, provenTraits } from './proven.ts';
export { trimPoints } from './trims.ts';
