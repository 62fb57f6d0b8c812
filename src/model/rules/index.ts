/** All rules over content, in the order in which they run. */
import { abbreviationsExplained } from './abbreviations-explained.ts';
import { causeOnceInFamily } from './cause-once-in-family.ts';
import { causeConfirmable, causeInFamily, symptomShown } from './causes-reached.ts';
import { checkTellsSomething, weakCheck } from './checks-tell-apart.ts';
import { codesOnce } from './codes-once.ts';
import { runningEngineAnswered } from './engine-runs.ts';
import { causeFitsFamily, likelihoodFits } from './engines-meet.ts';
import { cautionsReached, entriesUsed } from './entries-used.ts';
import { familyHasCode, familyWithinReach } from './families-reached.ts';
import { harmDecided } from './harm-decided.ts';
import { hazardWordsAnswered } from './hazard-words.ts';
import { idsOnce } from './ids-once.ts';
import { limitsCover } from './limits-cover.ts';
import { noCycles, noSetUpCycles } from './no-cycles.ts';
import { referencesExist } from './references-exist.ts';
import { testRepairIsOwn } from './repair-by-whom.ts';
import { rowsSum } from './rows-sum.ts';
import type { Rule } from './rule.ts';
import { scopeSums } from './scope-sums.ts';
import { sharesSum } from './shares-sum.ts';
import { shortSentences } from './short-sentences.ts';
import { traitValues } from './trait-values.ts';

export const rules: readonly Rule[] = [
  referencesExist,
  idsOnce,
  sharesSum,
  causeOnceInFamily,
  scopeSums,
  rowsSum,
  noCycles,
  noSetUpCycles,
  codesOnce,
  traitValues,
  likelihoodFits,
  causeFitsFamily,
  limitsCover,
  checkTellsSomething,
  weakCheck,
  causeConfirmable,
  causeInFamily,
  symptomShown,
  familyHasCode,
  familyWithinReach,
  testRepairIsOwn,
  hazardWordsAnswered,
  runningEngineAnswered,
  harmDecided,
  entriesUsed,
  cautionsReached,
  shortSentences,
  abbreviationsExplained,
];

/** Codes of faults that change no number: content of the past, older than the rule, can still be planned. */
export const sparingNumbers: ReadonlySet<string> = new Set(rules.filter((rule) => rule.sparesNumbers).map((rule) => rule.code));
