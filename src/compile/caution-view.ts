/** A caution as pages show it. */
import type { Content } from '../model/schema/index.ts';
import type { CautionFile } from '../model/schema/vocabulary.ts';
import { address } from './address.ts';

export interface CautionView {
  readonly id: string;
  readonly href: string;
  readonly signal: CautionFile['signal'];
  readonly title: string;
  readonly symbols: readonly string[];
  readonly hazard: string;
  readonly avoid: readonly string[];
  readonly handOver: string | null;
}

export const cautionView = (content: Content, id: string): CautionView => {
  const file = content.cautions.get(id)!;
  return {
    id,
    href: address('cautions', id),
    signal: file.signal,
    title: file.title,
    symbols: file.symbols,
    hazard: file.hazard,
    avoid: file.avoid,
    handOver: file.handOver ?? null,
  };
};

export const cautionViews = (content: Content, ids: readonly string[]): readonly CautionView[] => ids.map((id) => cautionView(content, id));
