export { firstInspectedModelYear, type InspectionFinding, type InspectionState, inspect, unsetMonitorsAllowed } from './inspection.ts';
export {
  afterClear,
  afterTrip,
  type Conditions,
  isWarmUpCycle,
  type LampState,
  lampDark,
  passingTripsToLampOff,
  similarConditions,
  similarLoadPercent,
  similarSpeedRpm,
  type Trip,
  warmUpsToErase,
} from './lamp.ts';
export { type MonitorReport, type MonitorState, type MonitorStatus, monitorStatus, unsetMonitors } from './readiness.ts';
export { chanceRepairWasRight } from './repair-belief.ts';
export {
  chanceFixed,
  chanceOfSilence,
  cleanNeeded,
  jeffreysPrior,
  meanRate,
  type RateBelief,
  type ReturnHistory,
  rateAfter,
  upperBoundOfChance,
  upperBoundOfRate,
} from './return-clock.ts';
