/**
 * Content -> the cards of the job page: how each check and repair is done, cautions before steps. Their form is what the job
 * page reads (`src/job/card-types.ts`); the pages that write them as JSON hold the two together.
 */
import { type Catalogue, citation } from './catalogue.ts';
import { limitsText, unitName } from './reading-view.ts';
import { engineStates, repairWork, skills } from './work-view.ts';

/** Cautions and set-ups, which many cards share. */
export function sharedCards({ content, links }: Catalogue) {
  return {
    setUps: Object.fromEntries(
      [...content['set-ups']].map(([id, { title, steps, whileThere }]) => [
        id,
        { title, steps, whileThere, cautions: links.cautionsOfSetUp.get(id) ?? [] },
      ]),
    ),
    cautions: Object.fromEntries(
      [...content.cautions].map(([id, { signal, title, symbols, hazard, avoid, handOver }]) => [
        id,
        { signal, title, symbols, hazard, avoid, handOver: handOver ?? null },
      ]),
    ),
  };
}

const sourceTitle = ({ content }: Catalogue, reference: string): string => {
  const { source, place } = citation(content, reference);
  return place === null ? source.title : `${source.title}, ${place}`;
};

export function checkCard(catalogue: Catalogue, id: string) {
  const file = catalogue.content.checks.get(id)!;
  const { reading } = file;
  return {
    asks: file.asks,
    why: file.why,
    skill: skills[file.skill],
    engine: engineStates[file.engineState],
    cautions: catalogue.links.cautionsOfCheck.get(id) ?? [],
    steps: file.steps,
    reading: reading
      ? {
          what: reading.what,
          unit: unitName(reading.unit),
          at: reading.at,
          maker: reading.maker ?? null,
          source: sourceTitle(catalogue, reading.source),
        }
      : null,
    trap: file.trap,
    outcomes: file.outcomes.map(({ id: outcome, title, means, when }) => ({
      id: outcome,
      title,
      means,
      when: when ? { above: when.above ?? null, below: when.below ?? null } : null,
      limits: when && reading ? limitsText(when, reading.unit) : '',
    })),
  };
}

/** The card of the repair of a cause. */
export function repairCard(catalogue: Catalogue, cause: string) {
  const file = catalogue.content.causes.get(cause)!;
  const work = repairWork(catalogue, cause, file.repair);
  return {
    what: file.what,
    title: work.title,
    engine: engineStates[file.repair.engineState],
    cautions: catalogue.links.cautionsOfRepair.get(cause) ?? [],
    parts: work.parts.map(({ id, title, count, price, only, oneTimeUse }) => ({
      id,
      title,
      count,
      price,
      only,
      oneTimeUse,
      advice: catalogue.content.parts.get(id)?.advice ?? null,
    })),
    steps: work.steps,
    torque: work.torque.map(({ what, newtonMetres, poundFeet, note }, index) => ({
      what,
      newtonMetres,
      poundFeet,
      note,
      source: sourceTitle(catalogue, file.repair.torque[index]!.source),
    })),
    verify: work.verify,
    relearn: work.relearn,
    closeUp: work.closeUp,
    professionalOnly: work.professionalOnly,
  };
}
