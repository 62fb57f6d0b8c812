/** Orders that flip easily, as problems at their place: the one warning that needs the whole knowledge worked through. */
import { defaultCase } from '../../engine/default-case.ts';
import { formulate } from '../../engine/formulate.ts';
import type { Knowledge } from '../../engine/knowledge.ts';
import type { Strengths } from '../../engine/plan/robustness.ts';
import type { YamlDocument } from '../document.ts';
import { plainestCode } from '../plainest-code.ts';
import type { Problem } from '../problem.ts';
import type { FamilyFile } from '../schema/family.ts';
import type { Content } from '../schema/index.ts';
import { leavesOf } from '../tree.ts';
import { type FirstStep, type FirstStepFirmness, firstStepFirmness, same } from './first-step.ts';
import { type Lever, levers, type StatedChance } from './levers.ts';

const samples = 25;
/**
 * An order is left alone when its first step stays first in this share of the samples (steps that the family calls as good:
 * any of them in this share), or when it loses less than this by beginning so.
 */
const staysOften = 1 / 3;
const eitherOften = 1 / 2;
const losesLittle = 0.02;
/** So many numbers are named, the weightiest first. */
const namedNumbers = 3;

export interface Firmness {
  readonly content: Content;
  readonly documents: ReadonlyMap<string, YamlDocument>;
  readonly knowledge: Knowledge;
  readonly strengths: Strengths;
}

/** A warning for each family whose order begins with a step that few beliefs near the stated ones would begin with. */
export function flippingOrders({ content, documents, knowledge, strengths }: Firmness): readonly Problem[] {
  return [...content.families].flatMap(([id, family]): Problem[] => {
    const code = plainestCode(id, knowledge);
    const document = documents.get(`families/${id}`);
    if (!code || !document) return [];
    const { model, hypotheses, checkIds, repairIds } = formulate(defaultCase([code], knowledge), knowledge);
    const idOf = ({ kind, action }: FirstStep) => (kind === 'check' ? checkIds[action!]! : kind === 'repair' ? repairIds[action!]! : null);
    const mayBegin = (step: FirstStep, stated: FirstStep) =>
      same(step, stated) || (family.eitherFirst?.steps.includes(idOf(step) ?? '') ?? false);
    const timesOf = (firsts: FirstStepFirmness['firsts'], stated: FirstStep) =>
      firsts.reduce((sum, step) => sum + (mayBegin(step, stated) ? step.times : 0), 0);
    const enough = (family.eitherFirst ? eitherOften : staysOften) * samples;
    // Most families have enough after a few samples, and nothing is to be said of them.
    const firm = firstStepFirmness(model, {
      ...strengths,
      samples,
      start: 1,
      settled: (firsts, stated) => timesOf(firsts, stated) >= enough,
    });
    const stays = timesOf(firm.firsts, firm.stated);
    const rival = firm.firsts.find((step) => !mayBegin(step, firm.stated));
    if (!rival || stays >= enough || firm.meanLoss < losesLittle * firm.cost) return [];

    const name = (step: FirstStep): string =>
      step.kind === 'check'
        ? `"${content.checks.get(idOf(step)!)!.title}"`
        : step.kind === 'repair'
          ? `the repair "${content.causes.get(idOf(step)!)!.repair.title}"`
          : 'handing the car over';
    const decisive = levers(model, hypotheses, knowledge.checks, [firm.stated, rival], strengths, namedNumbers);
    const leaves = new Map(leavesOf(family.tree).map((leaf) => [leaf.cause, leaf]));
    const leaf = decisive.flatMap(({ chance }) => (chance.kind === 'cause' ? (leaves.get(chance.cause) ?? []) : []))[0];
    return [
      {
        code: 'order-flips-easily',
        severity: 'warning',
        file: document.file.path,
        ...(leaf ? document.at([...leaf.path, 'share']) : document.atKey(['tree'])),
        what: [
          `Looking one step ahead, the order for ${code} begins with ${name(firm.stated)}, but only ${stays} of ${samples} sampled beliefs begin so;`,
          `${rival.times} begin with ${name(rival)}. Beginning as now costs ${(100 * (firm.meanLoss / firm.cost)).toFixed(1)} % too much on average.`,
          `Sampled: the chances of the causes as if ${strengths.priorStrength} cars had been counted, and those of the outcomes of`,
          `the nearest checks as if ${strengths.likelihoodStrength} had. The plan on the page looks further ahead.`,
        ].join(' '),
        mend: `Firm up ${decisive.map((lever) => leverText(lever, placeOf(lever.chance, id, family, documents))).join('; ')}. If either step is as good, say so in "eitherFirst", and why.`,
      },
    ];
  });
}

const percent = (chance: number): string => `${Number((100 * chance).toPrecision(3))} %`;

function leverText({ chance, now, turnsAt }: Lever, place: string): string {
  const turns =
    turnsAt === null ? 'alone it turns nothing' : `${turnsAt > now ? 'above' : 'below'} ${percent(turnsAt)} the other comes first`;
  const what =
    chance.kind === 'cause' ? chance.cause : `"${chance.outcome}" given ${chance.cause ?? 'a cause that the check does not name'}`;
  return `${place} (chance of ${what}, now ${percent(now)}: ${turns})`;
}

/** file:line:column of the number behind a chance; where a row leaves it to "otherwise", of the row. */
function placeOf(chance: StatedChance, id: string, family: FamilyFile, documents: ReadonlyMap<string, YamlDocument>): string {
  const [document, path] =
    chance.kind === 'cause'
      ? [documents.get(`families/${id}`)!, [...leavesOf(family.tree).find(({ cause }) => cause === chance.cause)!.path, 'share']]
      : [
          documents.get(`checks/${chance.check}`)!,
          [...(chance.cause === null ? ['otherwise'] : ['likelihood', chance.cause]), chance.outcome],
        ];
  const { line, column } = document.at(path);
  return `${document.file.path}:${line}:${column}`;
}
