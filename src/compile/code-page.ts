/** Everything that the page of one trouble code shows. */
import { belief } from '../engine/belief/index.ts';
import { assumptionsFor, defaultCase } from '../engine/default-case.ts';
import { type Formulation, formulate } from '../engine/formulate.ts';
import { codeStructure } from '../engine/trouble-code.ts';
import { signalOrder } from '../model/cautions.ts';
import { leavesOf } from '../model/tree.ts';
import { assumptionTitles } from './assumption-titles.ts';
import { type Catalogue, type Citation, citations, codeMention, type Mention, mention, mentions } from './catalogue.ts';
import { type CautionView, cautionViews } from './caution-view.ts';
import { type CurveView, curveView } from './curve-view.ts';
import { type Driving, drivingTitles } from './driving.ts';
import { money, percent } from './figures.ts';
import { type FlowNode, flowOf } from './flow.ts';
import type { Order } from './order.ts';
import { strengths } from './order.ts';
import { strategyTitles } from './plan-report.ts';
import { rareSteps } from './rare-steps.ts';
import { type StepView, stepViews } from './step-view.ts';
import { type TreeNode, treeView } from './tree-view.ts';

export interface OrderRow {
  readonly title: string;
  readonly expected: string;
  readonly median: string;
  readonly ninety: string;
  readonly solved: string;
  readonly computed: boolean;
}

export interface CodePage {
  readonly code: string;
  readonly title: string;
  readonly meaning: string;
  readonly groupMeaning: string;
  readonly groupTitle: string;
  readonly definedBy: string;
  readonly lamp: string;
  readonly driving: Driving;
  readonly drivingTitle: string;
  readonly drivingWhy: string;
  readonly family: Mention;
  readonly firstLook: string;
  readonly steps: readonly StepView[];
  /** The steps parted: those that matter, those that together settle next to nothing, and what ends the order. */
  readonly mainSteps: readonly StepView[];
  readonly rareSteps: readonly StepView[];
  readonly lastSteps: readonly StepView[];
  readonly tree: readonly TreeNode[];
  readonly flow: FlowNode;
  readonly curve: CurveView;
  readonly orders: readonly OrderRow[];
  readonly firmness: readonly string[];
  /** What the order takes for granted of the engine, as titles of trait values. */
  readonly reckonedFor: readonly string[];
  readonly expectedCost: string;
  readonly solvedChance: string;
  readonly cautions: readonly CautionView[];
  readonly monitors: readonly Mention[];
  readonly symptoms: readonly Mention[];
  readonly neighbours: { readonly previous: Mention | null; readonly next: Mention | null };
  readonly related: readonly Mention[];
  readonly relatedFamilies: readonly Mention[];
  readonly citations: readonly Citation[];
  readonly sourceFiles: readonly string[];
}

/** The situation of a code page: this code, and the commonest engine where one is clearly commonest. */
export const codeFormulation = ({ knowledge }: Catalogue, code: string): Formulation =>
  formulate(defaultCase([code], knowledge), knowledge);

export function codePage(catalogue: Catalogue, code: string, formulation: Formulation, order: Order): CodePage {
  const { content, knowledge } = catalogue;
  const [groupId, group] = [...content.codes].find(([, file]) => Object.hasOwn(file.codes, code))!;
  const entry = group.codes[code]!;
  const family = content.families.get(group.family)!;
  const chances = new Map(belief(defaultCase([code], knowledge), knowledge).causes.map(({ id, probability }) => [id, probability]));
  const steps = stepViews(catalogue, formulation, order);
  const all = Object.keys(knowledge.codes);
  const position = all.indexOf(code);
  const beside = (index: number) => (all[index] ? codeMention(knowledge, all[index]) : null);
  const cautionIds = new Set(steps.flatMap((step) => (step.check?.work ?? step.repair)?.cautions.map(({ id }) => id) ?? []));
  return {
    code,
    title: entry.title,
    meaning: entry.meaning ?? '',
    groupMeaning: group.meaning,
    groupTitle: group.title,
    definedBy: definedBy(code),
    lamp: group.lamp,
    driving: group.driving,
    drivingTitle: drivingTitles[group.driving],
    drivingWhy: group.drivingWhy,
    family: mention(content, 'families', group.family),
    firstLook: family.firstLook,
    steps,
    ...partSteps(steps),
    tree: treeView(content, family, (cause) => chances.get(cause) ?? 0),
    flow: flowOf(formulation, order.policy, knowledge),
    curve: curveView(order),
    orders: order.orders.map((other) => ({
      title: strategyTitles[other.strategy],
      expected: money(other.expectedCost),
      median: money(other.summary.median),
      ninety: money(other.summary.ninetiethPercentile),
      solved: percent(other.summary.solved),
      computed: other.strategy === 'computed',
    })),
    firmness: firmnessText(order, steps),
    reckonedFor: assumptionTitles(content, assumptionsFor([code], knowledge)),
    expectedCost: money(order.expectedCost),
    solvedChance: percent(order.orders[0]!.summary.solved),
    cautions: cautionViews(
      content,
      [...cautionIds].sort(
        (a, b) =>
          signalOrder.indexOf(content.cautions.get(a)!.signal) - signalOrder.indexOf(content.cautions.get(b)!.signal) || (a < b ? -1 : 1),
      ),
    ),
    monitors: mentions(content, 'monitors', family.monitors),
    symptoms: likelySymptoms(catalogue, chances),
    neighbours: { previous: beside(position - 1), next: beside(position + 1) },
    related: Object.keys(group.codes)
      .filter((other) => other !== code)
      .sort()
      .map((other) => codeMention(knowledge, other)),
    relatedFamilies: mentions(content, 'families', family.related),
    citations: citations(content, [
      group.source,
      family.source,
      ...leavesOf(family.tree)
        .filter(({ cause }) => (chances.get(cause) ?? 0) > 0.02)
        .map(({ cause }) => content.causes.get(cause)!.source),
      ...steps.flatMap((step) => (step.check ? [content.checks.get(step.id)!.source] : [])),
    ]),
    sourceFiles: [`content/codes/${groupId}.yaml`, `content/families/${group.family}.yaml`],
  };
}

function definedBy(code: string): string {
  const structure = codeStructure(code)!;
  return structure.definedBy === 'standard'
    ? 'SAE J2012 and ISO 15031-6: the same on every make'
    : 'the maker: see the service information for the vehicle';
}

/** Symptoms that the likely causes show, likeliest first: P(symptom | code), for those that tell something. */
function likelySymptoms({ content, knowledge }: Catalogue, chances: ReadonlyMap<string | null, number>): readonly Mention[] {
  const expected = new Map<string, number>();
  for (const [cause, chance] of chances) {
    if (cause === null) continue;
    for (const [symptom, shown] of Object.entries(knowledge.causes[cause]!.shows))
      expected.set(symptom, (expected.get(symptom) ?? 0) + chance * shown);
  }
  return [...expected]
    .filter(([, chance]) => chance >= 0.08)
    .sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1))
    .slice(0, 8)
    .map(([id, chance]) => mention(content, 'symptoms', id, percent(Math.min(1, chance))));
}

/** How firm the order is, from re-planning with moved numbers and from the proven bound. */
function firmnessText(order: Order, steps: readonly StepView[]): readonly string[] {
  const { firmness } = order;
  const first = steps[0]?.title ?? '';
  const proven =
    order.gap <= 1e-9
      ? 'No order of these checks and repairs can cost less: that is proven.'
      : `No order of these checks and repairs can cost less than ${money(order.lowerBound)}: that is proven. The order above is at most ${percent(order.gap)} dearer than the best there is.`;
  const moved =
    firmness.samples > 0
      ? [
          `The chances are opinions, so they were moved at random ${firmness.samples} times, as if only ${strengths.priorStrength} cars stood behind each, and everything was planned anew. “${first}” stayed first in ${Math.round(firmness.firstStays * firmness.samples)} of ${firmness.samples}.`,
          `With the moved numbers the order above cost ${money(firmness.meanRegret)} more on average than an order made for them.`,
        ]
      : [];
  return [proven, ...moved];
}

function partSteps(steps: readonly StepView[]): Pick<CodePage, 'mainSteps' | 'rareSteps' | 'lastSteps'> {
  const [rareFrom, lastFrom] = rareSteps(steps);
  return { mainSteps: steps.slice(0, rareFrom), rareSteps: steps.slice(rareFrom, lastFrom), lastSteps: steps.slice(lastFrom) };
}
