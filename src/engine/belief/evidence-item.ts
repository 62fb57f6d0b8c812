/** One item of evidence about a car: what was seen, and how likely that is under each cause. */
import type { CauseFacts } from '../knowledge.ts';

export type EvidenceKind =
  | 'code'
  | 'cylinders'
  | 'banks'
  | 'symptom'
  | 'condition'
  | 'freeze-frame'
  | 'recent-work'
  | 'trims'
  | 'replaced'
  | 'repaired';

export interface Evidence {
  readonly kind: EvidenceKind;
  /** Vocabulary id, or the code. */
  readonly id: string;
  readonly title: string;
  /** Likelihood of what was seen under a cause; null is "none of these". Only ratios between causes count. */
  readonly likelihood: (cause: CauseFacts | null) => number;
}
