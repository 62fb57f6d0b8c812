/** What could be done next, best first, with what it costs to do it now: the immediate answer. */
import type { Formulation } from '../../engine/formulate.ts';
import type { Knowledge, Work } from '../../engine/knowledge.ts';
import { type RankedAction, rerank } from '../../engine/plan/index.ts';

export interface Proposal {
  readonly kind: 'check' | 'repair' | 'hand-over';
  /** Check id, cause id of a repair, or `hand-over`. */
  readonly id: string;
  readonly title: string;
  readonly attendedMinutes: number;
  readonly waitingMinutes: number;
  readonly money: number;
  /** Everything as one sum, as the planner counts it. */
  readonly cost: number;
  /** What choosing it instead of the first is expected to add to the whole job. */
  readonly deviation: number;
  /** Set-ups and tools (by id) that are first needed here and are counted above. */
  readonly setUps: readonly string[];
  readonly tools: readonly string[];
}

type Timed = Pick<Work, 'attendedMinutes' | 'waitingMinutes' | 'money'>;

/** The best `most` things to do next, by one look ahead. Handing over is always among them. */
export function proposals(formulation: Formulation, knowledge: Knowledge, most: number): readonly Proposal[] {
  const ranked = rerank(formulation.model);
  return ranked
    .filter(({ kind }, index) => index < most || kind === 'hand-over')
    .map((action) => proposalOf(action, formulation, knowledge));
}

export function proposalOf(
  { kind, action, cost, deviation }: Omit<RankedAction, 'estimate'>,
  formulation: Formulation,
  knowledge: Knowledge,
): Proposal {
  if (kind === 'hand-over' || action === null) {
    const attendedMinutes = knowledge.families[formulation.belief.families[0] ?? '']?.handOverAttendedMinutes ?? 60;
    const money = Math.max(0, cost - (attendedMinutes / 60) * formulation.rates.hourlyRate);
    return {
      kind: 'hand-over',
      id: 'hand-over',
      title: 'Hand the car to a professional',
      attendedMinutes,
      waitingMinutes: 0,
      money,
      cost,
      deviation,
      setUps: [],
      tools: [],
    };
  }
  const { model, setUpIds } = formulation;
  const id = kind === 'check' ? formulation.checkIds[action]! : formulation.repairIds[action]!;
  const needs = (kind === 'check' ? model.checks[action]! : model.repairs[action]!).setUps
    .filter((setUp) => !model.setUpsDone.includes(setUp))
    .map((setUp) => setUpIds[setUp]!);
  const setUps = needs.filter((need) => !need.startsWith('tool:'));
  const tools = needs.filter((need) => need.startsWith('tool:')).map((need) => need.slice('tool:'.length));
  const repair = knowledge.causes[id]?.repair;
  const own: Timed & { readonly title: string } =
    kind === 'check' ? knowledge.checks[id]! : { ...repair!, attendedMinutes: repair!.attendedMinutes + repair!.verifyMinutes };
  const extra: readonly Timed[] = [
    ...setUps.map((setUp) => knowledge.setUps[setUp]!),
    ...tools.map((tool) => ({ attendedMinutes: 0, waitingMinutes: 0, money: knowledge.tools[tool]!.money })),
  ];
  const sum = (pick: (work: Timed) => number) => extra.reduce((total, work) => total + pick(work), pick(own));
  return {
    kind,
    id,
    title: own.title,
    attendedMinutes: sum((work) => work.attendedMinutes),
    waitingMinutes: sum((work) => work.waitingMinutes),
    money: sum((work) => work.money),
    cost,
    deviation,
    setUps,
    tools,
  };
}
