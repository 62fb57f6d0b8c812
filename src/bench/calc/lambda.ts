/**
 * Lambda: air that was there over air that the fuel needed. From the air-fuel ratio, or from the dry exhaust by the
 * Brettschneider equation in its simplified form (J. Brettschneider 1979, Bosch Technische Berichte 6, pages 177-186; read in
 * second sources, its constants from memory).
 */

export interface Fuel {
  readonly id: string;
  readonly title: string;
  /** Mass of air that burns a mass of fuel without rest. */
  readonly stoichiometricRatio: number;
  readonly known: 'second-hand' | 'memory';
}

export const fuels: readonly Fuel[] = [
  { id: 'e0', title: 'Petrol without ethanol (E0)', stoichiometricRatio: 14.7, known: 'second-hand' },
  { id: 'e10', title: 'Petrol with 10 % ethanol (E10)', stoichiometricRatio: 14.1, known: 'memory' },
  { id: 'e85', title: 'Ethanol fuel (E85)', stoichiometricRatio: 9.8, known: 'memory' },
];

export const lambdaOfRatio = (airFuelRatio: number, fuel: Fuel): number => airFuelRatio / fuel.stoichiometricRatio;
export const ratioOfLambda = (lambda: number, fuel: Fuel): number => lambda * fuel.stoichiometricRatio;

/** Hydrogen and oxygen atoms for each carbon atom of petrol, as the equation takes them; from memory. */
export const petrol = { hydrogen: 1.7261, oxygen: 0.0176 } as const;
/** Water-gas constant of the equation. */
const waterGas = 3.5;
/** Carbon atoms in a molecule of hexane: analysers count hydrocarbons as hexane. */
const carbonOfHexane = 6;

/** Dry exhaust: volume percent, and hydrocarbons in parts per million of hexane. */
export interface DryExhaust {
  readonly carbonMonoxidePercent: number;
  readonly carbonDioxidePercent: number;
  readonly oxygenPercent: number;
  readonly hydrocarbonsPpm: number;
}

/**
 * Lambda of a dry exhaust; nitric oxide is left out (1,000 ppm of it would add about 0.003). Null when a figure is negative or there is
 * no carbon in the gas.
 */
export function lambdaOfExhaust(gas: DryExhaust, composition: { hydrogen: number; oxygen: number } = petrol): number | null {
  const { carbonMonoxidePercent: co, carbonDioxidePercent: co2, oxygenPercent: o2, hydrocarbonsPpm } = gas;
  if (![co, co2, o2, hydrocarbonsPpm].every((value) => value >= 0) || !(co2 > 0) || co + co2 + o2 > 100) return null;
  const carbonOfHydrocarbons = (carbonOfHexane * hydrocarbonsPpm) / 10_000;
  const hydrogenTerm = (composition.hydrogen / 4) * (waterGas / (waterGas + co / co2));
  const oxygenThere = co2 + co / 2 + o2 + (hydrogenTerm - composition.oxygen / 2) * (co2 + co);
  const oxygenNeeded = (1 + composition.hydrogen / 4 - composition.oxygen / 2) * (co2 + co + carbonOfHydrocarbons);
  return oxygenThere / oxygenNeeded;
}

/** Molecules of nitrogen (and argon) to one of oxygen in dry air: 79.05 / 20.95. */
const nitrogenPerOxygen = 79.05 / 20.95;

/**
 * Lambda of a lean engine that burns everything, from oxygen alone, by the balance of atoms: for each carbon atom, 1 CO2,
 * (lambda - 1) a oxygen and 79.05/20.95 lambda a nitrogen stay in the dry gas, a = 1 + H/4 - O/2. Null from 20.9 percent: that is air.
 */
export function lambdaOfOxygen(oxygenPercent: number, composition: { hydrogen: number; oxygen: number } = petrol): number | null {
  const share = oxygenPercent / 100;
  if (!(share >= 0) || share >= 0.209) return null;
  const a = 1 + composition.hydrogen / 4 - composition.oxygen / 2;
  return (a + share * (1 - a)) / (a * (1 - share * (1 + nitrogenPerOxygen)));
}

export type Mixture = 'rich' | 'near-one' | 'lean';
/** Within 3 percent of 1 counts as near: a warm engine under closed loop swings about as much. Common practice, no source. */
export const readLambda = (lambda: number): Mixture => (lambda < 0.97 ? 'rich' : lambda > 1.03 ? 'lean' : 'near-one');
