/** npm run plan -- P0301 ... | --case FILE [--json] | --vocabulary [--json]. Exit code 2 on wrong use or unknown ids. */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { assumptionTitles } from '../src/compile/assumption-titles.ts';
import { planJson, planText } from '../src/compile/plan-report.ts';
import { vocabularyList } from '../src/compile/vocabulary-list.ts';
import { answer, defaultBudget } from '../src/engine/answer.ts';
import { assumptionsFor, defaultCase } from '../src/engine/default-case.ts';
import type { Knowledge } from '../src/engine/knowledge.ts';
import { codeStructure } from '../src/engine/trouble-code.ts';
import { certifiedPlan } from '../src/kept/certificates.ts';
import { readCase } from '../src/model/case-file.ts';
import type { Content } from '../src/model/schema/index.ts';
import { knowledgeOrExit } from './content/knowledge.ts';

function refuse(lines: readonly string[]): never {
  for (const line of lines) console.error(line);
  process.exit(2);
}

function options() {
  try {
    return parseArgs({
      allowPositionals: true,
      options: {
        case: { type: 'string' },
        json: { type: 'boolean', default: false },
        vocabulary: { type: 'boolean', default: false },
        nodes: { type: 'string' },
      },
    });
  } catch (error) {
    return refuse([
      (error as Error).message,
      'Use: npm run plan -- P0301 [P0302 ...] | --case FILE.json [--json] | --vocabulary [--json]. FILE - is standard input.',
    ]);
  }
}

function readJson(path: string): unknown {
  let text: string;
  try {
    text = readFileSync(path === '-' ? 0 : path, 'utf8');
  } catch (error) {
    return refuse([`The case ${path} could not be read: ${(error as Error).message}.`]);
  }
  try {
    return JSON.parse(text);
  } catch (error) {
    return refuse([`${path === '-' ? 'Standard input' : path} is not JSON: ${(error as Error).message}.`]);
  }
}

/** What can be said of a code without a tree: its structure, plainly. */
function structureText(code: string): string {
  const structure = codeStructure(code)!;
  const defined =
    structure.definedBy === 'standard'
      ? 'defined by the standard (SAE J2012 / ISO 15031-6)'
      : 'defined by the maker: see the service information for the vehicle';
  return `${code}: ${structure.area} code, ${defined}${structure.subsystem ? `, group: ${structure.subsystem}` : ''}. Lampwise has no tree for it yet.`;
}

/** The engine that the order is reckoned for. */
function assumptionText(codes: readonly string[], facts: Knowledge, files: Content): string {
  const assumed = assumptionTitles(files, assumptionsFor(codes, facts));
  return assumed.length === 0
    ? 'Reckoned for any engine.'
    : `Reckoned for the commonest engine. ${assumed.join('; ')}. With --case you say what yours is.`;
}

function printVocabulary(json: boolean, list: ReturnType<typeof vocabularyList>) {
  if (json) {
    console.log(JSON.stringify(list, null, 2));
    return;
  }
  for (const [name, entries] of Object.entries(list)) {
    console.log(`\n${name}`);
    for (const entry of entries)
      console.log(
        typeof entry === 'string'
          ? `  ${entry}`
          : `  ${entry.id}  ${entry.title}${'synonyms' in entry && entry.synonyms?.length ? `  (${entry.synonyms.join(', ')})` : ''}`,
      );
  }
}

function nodeBudget(text: string | undefined) {
  if (text === undefined) return defaultBudget;
  const nodes = Number(text);
  if (!Number.isInteger(nodes) || nodes < 1) refuse([`--nodes ${text} is not a whole number above 0.`]);
  return { nodes };
}

/** `codesOnly`: nothing is known of the engine, so the commonest one is taken where there is a clearly commonest. */
function run(value: unknown, codesOnly: boolean, knowledge: Knowledge, json: boolean, nodes: string | undefined) {
  const { situation: told, faults, codesWithoutTree } = readCase(value, knowledge);
  if (!told) refuse(faults);
  const situation = codesOnly ? defaultCase(told.codes ?? [], knowledge) : told;
  const anyEvidence = (situation.codes?.length ?? 0) > 0 || Object.keys(situation.symptoms ?? {}).length > 0;
  if (!anyEvidence) {
    if (codesWithoutTree.length === 0) refuse(['The case names no code and no symptom: at least one is needed.']);
    console.log(
      json
        ? JSON.stringify({ codesWithoutTree: codesWithoutTree.map((code) => codeStructure(code)) }, null, 2)
        : codesWithoutTree.map(structureText).join('\n'),
    );
    return;
  }
  const found = answer(situation, knowledge, nodeBudget(nodes), (model) => certifiedPlan(model)?.plan ?? null);
  if (json) console.log(JSON.stringify(planJson(found, knowledge, codesWithoutTree), null, 2));
  else {
    for (const code of codesWithoutTree) console.log(`${structureText(code)}\n`);
    for (const code of situation.codes ?? []) console.log(`${code}: ${knowledge.codes[code]!.title}`);
    if (codesOnly) console.log(assumptionText(situation.codes ?? [], knowledge, content));
    console.log(`\n${planText(found, knowledge)}`);
  }
}

const { values, positionals } = options();
if (!values.vocabulary && values.case === undefined && positionals.length === 0)
  refuse(['Name a code, or give --case FILE.json, or --vocabulary.']);
if (values.case !== undefined && positionals.length > 0) refuse(['Give codes or --case, not both.']);
const { content, knowledge } = knowledgeOrExit();
if (values.vocabulary) printVocabulary(values.json, vocabularyList(content));
else
  run(
    values.case === undefined ? { codes: positionals } : readJson(values.case),
    values.case === undefined,
    knowledge,
    values.json,
    values.nodes,
  );
