/** Content that does not exist but could: families of the usual size, whose sentences are those of the shipped content. */
import { sheets } from '../../src/bench/sheets/index.ts';
import { seededRandom } from '../../src/engine/plan/random.ts';
import type { ContentFile } from '../../src/model/problem.ts';
import type { Content } from '../../src/model/schema/index.ts';

/** Of one family, about as in the shipped content. */
const causesEach = 12;
const checksEach = 18;
const codesEach = 5;
export const pagesOfFamily = 1 + causesEach + checksEach + codesEach;

const source = 'common-practice';
const file = (path: string, value: object): ContentFile => ({ path: `content/${path}.yaml`, text: `${JSON.stringify(value, null, 1)}\n` });

/**
 * Content with `families` families, as files of JSON, which is YAML. The same for the same arguments. Every code of a family
 * has the same order, so that a bench of pages does not become a bench of the planner.
 */
export function generatedContent(families: number, shipped: Content): readonly ContentFile[] {
  const random = seededRandom(families);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
  const some = <T>(list: readonly T[], least: number, most: number): T[] =>
    Array.from({ length: least + Math.floor(random() * (most - least + 1)) }, () => pick(list));
  const money = (least: number, most: number) => Math.round(least + random() * (most - least));
  const causes = [...shipped.causes.values()];
  const checks = [...shipped.checks.values()];
  const causeSteps = causes.flatMap(({ repair }) => repair.steps);
  const checkSteps = checks.flatMap(({ steps }) => steps);
  const outcomeTexts = checks.flatMap(({ outcomes }) => outcomes);
  const symptomIds = Array.from({ length: 12 }, (_, index) => `symptom-${index}`);
  const toolIds = Array.from({ length: 10 }, (_, index) => `tool-${index}`);

  const made: ContentFile[] = [
    ...symptomIds.map((id, index) => {
      const { title, asks, also, means } = [...shipped.symptoms.values()][index]!;
      return file(`symptoms/${id}`, {
        title,
        asks,
        also,
        group: 'idle',
        means,
        otherwise: 0.1,
        driving: 'gently',
        drivingWhy: means,
        source,
      });
    }),
    ...toolIds.map((id, index) => {
      const { title, what, use } = [...shipped.tools.values()][index]!;
      return file(`tools/${id}`, { title, what, use, owned: index % 2 === 0, price: { low: 8, high: 40 }, source });
    }),
    file(`sources/${source}`, { title: 'Common practice of the trade', kind: 'opinion', read: 'practice', what: 'Values of no one.' }),
    file('scopes/whole-engine', {
      title: 'The whole engine',
      what: 'It reaches every cylinder.',
      cylinderPatterns: { single: 0.2, 'companion-pair': 0.1, neighbours: 0.1, 'one-bank': 0.1, several: 0.2, random: 0.3 },
      bankPatterns: { 'one-bank': 0.3, 'both-banks': 0.7 },
      source,
    }),
    file('trim-signatures/unmetered-air', {
      title: 'Unmetered air',
      what: 'Its share shrinks as airflow grows.',
      atIdle: { meanPercent: 18, sdPercent: 6 },
      change: { meanPercent: -10, sdPercent: 4 },
      source,
    }),
    file('monitors/any-monitor', {
      title: 'A monitor',
      what: 'It watches the parts of this bench.',
      runs: 'once-a-trip',
      drive: ['Drive for ten minutes.'],
      minutes: 10,
      source,
    }),
    // Reaches all work by name, so that it answers every danger in the sentences that are drawn.
    file('cautions/any-danger', {
      title: 'Dangers of the work',
      signal: 'WARNING',
      symbols: ['W001'],
      hazard: 'What is done here can burn, cut or crush.',
      avoid: ['Read the whole step before you start on it.'],
      appliesTo: {
        engineStates: ['running'],
        words: [...new Set([...shipped.cautions.values()].flatMap(({ appliesTo }) => appliesTo.words))],
      },
      source,
    }),
  ];
  for (let family = 0; family < families; family++) {
    const causeIds = Array.from({ length: causesEach }, (_, index) => `cause-n${family}-n${index}`);
    const shares = causeIds.map(() => 0.2 + random());
    const all = shares.reduce((sum, share) => sum + share, 0);
    const { summary, what, firstLook, driving } = pick([...shipped.families.values()]);
    made.push(
      file(`families/family-n${family}`, {
        title: `Family ${family}`,
        summary,
        what,
        commonness: 0.1,
        remainder: 0.05,
        handOver: { money: 400, attendedMinutes: 30, why: 'An hour of diagnosis and a usual repair.' },
        firstLook,
        driving,
        monitors: ['any-monitor'],
        tree: [0, 1, 2].map((branch) => {
          const within = causeIds.map((cause, index) => ({ cause, share: shares[index]! })).filter((_, index) => index % 3 === branch);
          const sum = within.reduce((total, { share }) => total + share, 0);
          return {
            title: `System ${branch}`,
            share: sum / all,
            branches: within.map(({ cause, share }) => ({ cause, share: share / sum })),
          };
        }),
        formed: 'Drawn at random.',
        source,
      }),
      file(`codes/codes-n${family}`, {
        title: `Codes of family ${family}`,
        family: `family-n${family}`,
        meaning: what.slice(0, 400),
        lamp: 'The lamp is on.',
        driving: 'gently',
        drivingWhy: driving,
        codes: Object.fromEntries(
          Array.from({ length: codesEach }, (_, index) => [
            codeNumber(family * codesEach + index),
            { title: `Code ${index} of family ${family}` },
          ]),
        ),
        source,
      }),
    );
    causeIds.forEach((id, index) => {
      const { title, also, what: explained } = pick(causes);
      const { closeUp, verify } = pick(causes).repair;
      made.push(
        file(`causes/${id}`, {
          title: `${title.slice(0, 130)} ${family}.${index}`,
          also,
          what: explained,
          scope: 'whole-engine',
          ageing: 'wears-out',
          shows: Object.fromEntries(some(symptomIds, 1, 4).map((symptom) => [symptom, 0.3 + 0.6 * random()])),
          repair: {
            title: `Mend it: ${title.slice(0, 130)} ${family}.${index}`,
            attendedMinutes: money(15, 120),
            money: money(5, 150),
            tools: [...new Set(some(toolIds, 1, 3))],
            engineState: 'cold',
            hazards: ['any-danger'],
            parts: [],
            steps: some(causeSteps, 4, 7),
            holds: 0.95,
            verify,
            closeUp,
            source,
          },
          source,
        }),
      );
    });
    for (let index = 0; index < checksEach; index++) {
      const { title, asks, why, trap, likelihoodReason } = pick(checks);
      // Every cause is found by some check.
      const found = [causeIds[index % causesEach]!, ...some(causeIds, 0, 3)];
      const [good, bad] = [pick(outcomeTexts), pick(outcomeTexts)];
      made.push(
        file(`checks/check-n${family}-n${index}`, {
          title: `${title.slice(0, 130)} ${family}.${index}`,
          asks,
          why,
          attendedMinutes: money(3, 45),
          tools: [...new Set(some(toolIds, 1, 3))],
          engineState: pick(['cold', 'running', 'any']),
          hazards: ['any-danger'],
          skill: 'handy',
          steps: some(checkSteps, 3, 6),
          trap,
          outcomes: [
            { id: 'good', title: good.title, means: good.means },
            { id: 'bad', title: bad.title, means: bad.means },
          ],
          likelihood: Object.fromEntries(found.map((cause) => [cause, { bad: 0.7 + 0.25 * random() }])),
          otherwise: { bad: 0.04 },
          likelihoodReason,
          source,
        }),
      );
    }
  }
  return [...made, ...filesNamedByPages(made)];
}

/** The codes in turn, from P1000 on. */
const codeNumber = (index: number): string => {
  const letter = 'PCBU'[Math.floor(index / 0x3000)];
  return `${letter}${(0x1000 + (index % 0x3000)).toString(16).toUpperCase()}`;
};

/**
 * What pages name by hand and `content` lacks, as copies of the first of each kind; checks dear, so that no plan wants them. The
 * calculators name checks, families, terms and sources, the guide for contributors a check, a template and a code.
 */
export function filesNamedByPages(content: readonly ContentFile[]): readonly ContentFile[] {
  const like = (kind: string) =>
    content.find(({ path }) => path.startsWith(`content/${kind}/`))?.text ??
    `${JSON.stringify({ title: 'A term', means: 'It stands for the terms of the trade.', source })}\n`;
  const dear = like('checks').replace(/^( ?"?attendedMinutes"?): [\d.]+/m, '$1: 600');
  const stands = { checks: dear, families: like('families'), terms: like('terms'), sources: like('sources') };
  const paths = new Map<string, string>([
    ['content/checks/pinch-crankcase-hose.yaml', dear],
    ['content/families/_template.yaml', like('families')],
  ]);
  for (const sheet of sheets) {
    const sources = sheet.sources.flatMap((cited) => ('reference' in cited ? [cited.reference.split(' ')[0]!] : []));
    for (const [kind, ids] of Object.entries({ checks: sheet.checks, families: sheet.families, terms: sheet.terms, sources }))
      for (const id of ids) paths.set(`content/${kind}/${id}.yaml`, stands[kind as keyof typeof stands]);
  }
  const named = [...paths].map(([path, text]) => ({ path, text }));
  const known = (path: string) => content.some((one) => one.path === path);
  const hasCode = content.some(({ path, text }) => path.startsWith('content/codes/') && text.includes('P0171'));
  return [...named.filter(({ path }) => !known(path)), ...(hasCode ? [] : [codeOfTheGuide(content)])];
}

/** The code that the guide works through, of the first family there is. */
const codeOfTheGuide = (content: readonly ContentFile[]): ContentFile =>
  file('codes/code-of-the-guide', {
    title: 'The code of the guide',
    family: content.map(({ path }) => path.match(/^content\/families\/([^_].*)\.yaml$/)?.[1]).find(Boolean),
    meaning: 'It stands for the code that the guide works through.',
    lamp: 'The lamp is on.',
    driving: 'gently',
    drivingWhy: 'Nothing is known of it.',
    codes: { P0171: { title: 'The code of the guide' } },
    source,
  });
