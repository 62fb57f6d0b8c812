/** The state of a job: a pure reducer over plain data. */
export { caseOf } from './state/case-of.ts';
export { act, type History, historyOf, redo, undo } from './state/history.ts';
export {
  type Answer,
  type Entry,
  type ExposureUnit,
  emptyInputs,
  exposureUnits,
  type Inputs,
  type Job,
  newJob,
  type Proof,
  type ReplacementTime,
  replacementTimes,
  type UnitSystem,
} from './state/job.ts';
export { type Action, reduce } from './state/reduce.ts';
export { type RenamedIds, withPresentIds } from './state/renamed.ts';
export { confirmedProbability, type Stage, stageOf } from './state/stage.ts';
