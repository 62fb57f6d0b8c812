/** The steps of a computed order as a code page shows them. */
import type { Formulation } from '../engine/formulate.ts';
import type { PolicyNode } from '../engine/plan/index.ts';
import { stepsAlong } from '../engine/steps.ts';
import { address } from './address.ts';
import { type Catalogue, type Mention, mention } from './catalogue.ts';
import { duration, money } from './figures.ts';
import { type Order, spineOf } from './order.ts';
import { type OutcomeView, outcomeViews, unitName } from './reading-view.ts';
import { reasonText } from './reason-text.ts';
import { checkWork, type RepairView, repairWork, type WorkView } from './work-view.ts';

export interface OutcomeLink extends OutcomeView {
  /** What the order does after this result. */
  readonly next: string;
  readonly nextHref: string | null;
  /** The job goes on with the next step of the page. */
  readonly goesOn: boolean;
}

export interface StepView {
  readonly number: number;
  readonly kind: 'check' | 'repair' | 'hand-over';
  /** Check id, cause id of a repair, or `hand-over`. */
  readonly id: string;
  readonly title: string;
  readonly href: string | null;
  readonly settles: number;
  readonly soFar: number;
  readonly minutes: string;
  readonly waiting: string | null;
  readonly money: string;
  /** Spent by someone for whom every step up to here came back good. */
  readonly runningMinutes: string;
  readonly runningMoney: string;
  /** Access and tools that are first needed, and so first paid, here. */
  readonly firstNeeds: readonly Mention[];
  readonly reasons: readonly string[];
  readonly check: {
    readonly asks: string;
    readonly why: string;
    readonly trap: string;
    readonly reading: string | null;
    readonly outcomes: readonly OutcomeLink[];
    readonly work: WorkView;
  } | null;
  readonly repair: RepairView | null;
  readonly cause: Mention | null;
}

export function stepViews(catalogue: Catalogue, formulation: Formulation, order: Order): readonly StepView[] {
  const { content, knowledge } = catalogue;
  const turns = spineOf(order);
  const steps = stepsAlong(formulation, turns, knowledge);
  let node: PolicyNode | null = order.policy;
  let minutes = 0;
  let dollars = 0;
  return steps.map((step, index) => {
    minutes += step.attendedMinutes;
    dollars += step.money;
    const here = node;
    const turn = turns[index]!;
    node = !here || here.kind === 'hand-over' ? null : here.kind === 'repair' ? here.next : (here.next[turn.outcome ?? 0] ?? null);
    const base = {
      number: index + 1,
      kind: step.kind,
      id: step.id,
      title: step.title,
      settles: step.settles,
      soFar: step.cumulativeChance,
      minutes: duration(step.attendedMinutes),
      waiting: step.waitingMinutes > 0 ? duration(step.waitingMinutes) : null,
      money: money(step.money),
      runningMinutes: duration(minutes),
      runningMoney: money(dollars),
      firstNeeds: step.firstNeeds.map((need) =>
        need.startsWith('tool:') ? mention(content, 'tools', need.slice('tool:'.length)) : mention(content, 'set-ups', need),
      ),
      reasons: order.reasons[index] ? reasonText(order.reasons[index], steps[index + 1]?.title ?? null) : [],
    };
    if (step.kind === 'check' && here?.kind === 'check') {
      const file = content.checks.get(step.id)!;
      const outcomes = outcomeViews(file).map((outcome, position) => ({
        ...outcome,
        ...after(here.next[position] ?? null, position === turn.outcome, index + 2, formulation, catalogue),
      }));
      const reading = file.reading
        ? `${file.reading.what}${unitName(file.reading.unit) ? `, ${unitName(file.reading.unit)}` : ''}: ${file.reading.at}`
        : null;
      return {
        ...base,
        href: address('checks', step.id),
        check: { asks: file.asks, why: file.why, trap: file.trap, reading, outcomes, work: checkWork(catalogue, step.id, file) },
        repair: null,
        cause: null,
      };
    }
    if (step.kind === 'repair') {
      const file = content.causes.get(step.id)!;
      return {
        ...base,
        href: address('causes', step.id),
        check: null,
        repair: repairWork(catalogue, step.id, file.repair),
        cause: mention(content, 'causes', step.id),
      };
    }
    return { ...base, href: null, check: null, repair: null, cause: null };
  });
}

function after(next: PolicyNode | null, goesOn: boolean, number: number, formulation: Formulation, { content, knowledge }: Catalogue) {
  if (goesOn) return { goesOn, next: `Go on with step ${number}`, nextHref: `#step-${number}` };
  if (!next) return { goesOn, next: 'Cannot happen here', nextHref: null };
  if (next.kind === 'hand-over') return { goesOn, next: 'Hand over to a professional', nextHref: null };
  if (next.kind === 'check') {
    const id = formulation.checkIds[next.action]!;
    return { goesOn, next: `Check: ${content.checks.get(id)!.title}`, nextHref: address('checks', id) };
  }
  const id = formulation.repairIds[next.action]!;
  return { goesOn, next: `Repair: ${knowledge.causes[id]!.repair.title}`, nextHref: address('causes', id) };
}
