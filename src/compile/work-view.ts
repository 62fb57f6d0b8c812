/** A check, a repair or a set-up as pages show it: what it costs, what hurts, what to do, in that order. */

import type { RepairFile } from '../model/schema/cause.ts';
import type { CheckFile, Content } from '../model/schema/index.ts';
import type { SetUpFile } from '../model/schema/vocabulary.ts';
import { type Catalogue, type Citation, citation, type Mention, mention } from './catalogue.ts';
import { type CautionView, cautionViews } from './caution-view.ts';
import { duration, money, moneyRange, plain } from './figures.ts';

export interface Fact {
  readonly label: string;
  readonly value: string;
  readonly mentions?: readonly Mention[];
}

export interface WorkView {
  readonly facts: readonly Fact[];
  readonly cautions: readonly CautionView[];
  readonly steps: readonly string[];
}

export const engineStates = {
  any: 'any',
  cold: 'cold: stood for hours',
  warm: 'warm: just run, now off',
  running: 'warm and running',
} as const;

export const skills = {
  anyone: 'anyone',
  handy: 'handy: has used tools on a car before',
  experienced: 'experienced',
} as const;

/** Work that carries no caution says why nothing can hurt or break. */
const harmlessFacts = ({ harmless }: { readonly harmless?: string | undefined }): Fact[] =>
  harmless ? [{ label: 'No caution', value: harmless }] : [];

interface Costed {
  readonly attendedMinutes: number;
  readonly waitingMinutes: number;
  readonly money: number;
  readonly tools: readonly string[];
  readonly setUps: readonly string[];
}

function costFacts(content: Content, work: Costed, moneyLabel: string): Fact[] {
  return [
    { label: 'Hands on', value: duration(work.attendedMinutes) },
    ...(work.waitingMinutes > 0 ? [{ label: 'Waiting', value: duration(work.waitingMinutes) }] : []),
    ...(work.money > 0 ? [{ label: moneyLabel, value: money(work.money) }] : []),
    ...(work.setUps.length > 0 ? [{ label: 'Access', value: '', mentions: work.setUps.map((id) => setUpMention(content, id)) }] : []),
    ...(work.tools.length > 0 ? [{ label: 'Tools', value: '', mentions: work.tools.map((id) => mention(content, 'tools', id)) }] : []),
  ];
}

const setUpMention = (content: Content, id: string): Mention => {
  const file = content['set-ups'].get(id);
  return mention(content, 'set-ups', id, file ? duration(file.attendedMinutes) : undefined);
};

export function checkWork({ content, links }: Catalogue, id: string, file: CheckFile): WorkView {
  return {
    facts: [
      ...costFacts(content, file, 'Consumables'),
      { label: 'Engine', value: engineStates[file.engineState] },
      { label: 'Skill', value: skills[file.skill] },
      ...(file.after.length > 0
        ? [{ label: 'First do', value: '', mentions: file.after.map((before) => mention(content, 'checks', before)) }]
        : []),
      ...harmlessFacts(file),
    ],
    cautions: cautionViews(content, links.cautionsOfCheck.get(id) ?? []),
    steps: file.steps,
  };
}

export function setUpWork({ content, links }: Catalogue, id: string, file: SetUpFile): WorkView {
  return {
    facts: costFacts(content, file, 'Consumables'),
    cautions: cautionViews(content, links.cautionsOfSetUp.get(id) ?? []),
    steps: file.steps,
  };
}

export interface PartLine extends Mention {
  readonly count: number;
  readonly price: string;
  readonly only: string | null;
  readonly oneTimeUse: boolean;
}

export interface TorqueLine {
  readonly what: string;
  readonly newtonMetres: string;
  readonly poundFeet: string;
  readonly note: string | null;
  readonly citation: Citation;
}

export interface RepairView extends WorkView {
  readonly title: string;
  readonly parts: readonly PartLine[];
  readonly torque: readonly TorqueLine[];
  readonly verify: string;
  readonly relearn: readonly string[];
  readonly closeUp: readonly string[];
  readonly tryAsTest: boolean;
  readonly professionalOnly: boolean;
}

/** 1 lbf.ft = 1.355 817 948 N.m (NIST SP 811, appendix B.8). */
const newtonMetresPerPoundFoot = 1.355817948;

const range = (low: number, high: number): string => (low === high ? plain(low, 1) : `${plain(low, 1)} to ${plain(high, 1)}`);

export function repairWork({ content, links }: Catalogue, cause: string, file: RepairFile): RepairView {
  return {
    title: file.title,
    facts: [
      ...costFacts(content, file, 'Consumables'),
      { label: 'Engine', value: engineStates[file.engineState] },
      { label: 'Proof at once', value: duration(file.verify.minutes) },
      ...harmlessFacts(file),
    ],
    cautions: cautionViews(content, links.cautionsOfRepair.get(cause) ?? []),
    steps: file.steps,
    parts: file.parts.map(({ part, count, only }) => ({
      ...mention(content, 'parts', part),
      count,
      price: moneyRange(content.parts.get(part)!.price),
      only: only ?? null,
      oneTimeUse: content.parts.get(part)!.oneTimeUse,
    })),
    torque: file.torque.map((line) => ({
      what: line.what,
      newtonMetres: range(line.newtonMetres.low, line.newtonMetres.high),
      poundFeet: range(line.newtonMetres.low / newtonMetresPerPoundFoot, line.newtonMetres.high / newtonMetresPerPoundFoot),
      note: line.note ?? null,
      citation: citation(content, line.source),
    })),
    verify: file.verify.how,
    relearn: file.relearn,
    closeUp: file.closeUp,
    tryAsTest: file.tryAsTest,
    professionalOnly: file.professionalOnly,
  };
}
