import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fuels, lambdaOfExhaust, lambdaOfOxygen, lambdaOfRatio, petrol, ratioOfLambda } from '../../src/bench/calc/lambda.ts';

/**
 * Oracle: burns CHyOz in dry air by the balance of atoms and returns the dry exhaust. A share of the carbon may stay CO (with the
 * hydrogen that the water-gas constant of the equation leaves beside it), a share of the fuel may leave unburnt as hexane.
 */
function burn(lambda: number, { hydrogen: y, oxygen: z }: { hydrogen: number; oxygen: number }) {
  const oxygenNeeded = 1 + y / 4 - z / 2;
  const oxygen = (lambda - 1) * oxygenNeeded;
  const nitrogen = lambda * oxygenNeeded * (79.05 / 20.95);
  const dry = 1 + oxygen + nitrogen;
  return { carbonDioxidePercent: 100 / dry, oxygenPercent: (100 * oxygen) / dry, carbonMonoxidePercent: 0, hydrocarbonsPpm: 0 };
}

const lean = fc.double({ min: 1, max: 1.8, noNaN: true });

describe('lambda of the exhaust', () => {
  test('a lean exhaust with everything burnt gives back the lambda that it was burnt with', () => {
    fc.assert(
      fc.property(lean, (lambda) => {
        const gas = burn(lambda, petrol);
        expect(lambdaOfExhaust(gas)).toBeCloseTo(lambda, 9);
        expect(lambdaOfOxygen(gas.oxygenPercent)).toBeCloseTo(lambda, 9);
      }),
    );
  });

  test('so it does for another fuel, when its composition is given', () => {
    const methanol = { hydrogen: 4, oxygen: 1 };
    fc.assert(
      fc.property(lean, (lambda) => {
        const gas = burn(lambda, methanol);
        expect(lambdaOfExhaust(gas, methanol)).toBeCloseTo(lambda, 9);
        expect(lambdaOfOxygen(gas.oxygenPercent, methanol)).toBeCloseTo(lambda, 9);
      }),
    );
  });

  test('a rich exhaust balances too: oxygen let in equals oxygen in CO2, CO and water', () => {
    // Carbon split a:1-a between CO2 and CO, hydrogen between H2O and H2 by the water-gas constant 3.5 = CO H2O / (CO2 H2).
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 0.6, noNaN: true }), (monoxide) => {
        const dioxide = 1 - monoxide;
        const water = (petrol.hydrogen / 2) * (3.5 / (3.5 + monoxide / dioxide));
        const oxygenLetIn = dioxide + monoxide / 2 + water / 2 - petrol.oxygen / 2;
        const lambda = oxygenLetIn / (1 + petrol.hydrogen / 4 - petrol.oxygen / 2);
        const found = lambdaOfExhaust({
          carbonDioxidePercent: 14 * dioxide,
          carbonMonoxidePercent: 14 * monoxide,
          oxygenPercent: 0,
          hydrocarbonsPpm: 0,
        })!;
        expect(found).toBeCloseTo(lambda, 9);
        expect(found).toBeLessThan(1);
      }),
    );
  });

  test('a misfire that sends fuel and its air out unburnt leaves lambda as it was', () => {
    // Share m of the charge unburnt at lambda 1: its carbon leaves as hexane, its oxygen as oxygen.
    for (const missed of [0.01, 0.03, 0.1]) {
      const oxygenNeeded = 1 + petrol.hydrogen / 4 - petrol.oxygen / 2;
      const dry = 1 - missed + missed / 6 + missed * oxygenNeeded + oxygenNeeded * (79.05 / 20.95);
      const gas = {
        carbonDioxidePercent: (100 * (1 - missed)) / dry,
        carbonMonoxidePercent: 0,
        oxygenPercent: (100 * missed * oxygenNeeded) / dry,
        hydrocarbonsPpm: (1e6 * missed) / 6 / dry,
      };
      expect(lambdaOfExhaust(gas)).toBeCloseTo(1, 9);
      expect(lambdaOfOxygen(gas.oxygenPercent)!).toBeGreaterThan(1 + missed / 2);
    }
  });

  test('more oxygen is leaner, more carbon monoxide and hydrocarbons are richer', () => {
    const gas = { carbonDioxidePercent: 14, carbonMonoxidePercent: 0.5, oxygenPercent: 1, hydrocarbonsPpm: 100 };
    const base = lambdaOfExhaust(gas)!;
    expect(lambdaOfExhaust({ ...gas, oxygenPercent: 2 })!).toBeGreaterThan(base);
    expect(lambdaOfExhaust({ ...gas, carbonMonoxidePercent: 2 })!).toBeLessThan(base);
    expect(lambdaOfExhaust({ ...gas, hydrocarbonsPpm: 1000 })!).toBeLessThan(base);
  });

  test('gas that cannot be is refused', () => {
    const gas = { carbonDioxidePercent: 14, carbonMonoxidePercent: 0.5, oxygenPercent: 1, hydrocarbonsPpm: 100 };
    expect(lambdaOfExhaust({ ...gas, carbonDioxidePercent: 0 })).toBeNull();
    expect(lambdaOfExhaust({ ...gas, oxygenPercent: -1 })).toBeNull();
    expect(lambdaOfExhaust({ ...gas, carbonDioxidePercent: 101 })).toBeNull();
    expect(lambdaOfOxygen(20.9)).toBeNull();
  });
});

describe('air-fuel ratio', () => {
  // 14.7 : 1 for petrol without ethanol is in many second sources; E10 and E85 are from memory.
  test('lambda 1 is 14.7, 14.1 and 9.8 to 1', () => {
    expect(fuels.map((fuel) => ratioOfLambda(1, fuel))).toEqual([14.7, 14.1, 9.8]);
  });

  test('14.7 to 1 is lean for petrol with ethanol', () => {
    expect(lambdaOfRatio(14.7, fuels[1]!)).toBeCloseTo(1.0426, 4);
  });
});
