/** Arbitrary cases of the shipped vocabulary, with words now and then that it does not have. */
import fc from 'fast-check';
import type { Case } from '../../src/engine/case.ts';
import type { Knowledge } from '../../src/engine/knowledge.ts';

/** Names that JavaScript objects have by birth, and others that no vocabulary knows. */
const foreign = ['constructor', '__proto__', 'toString', 'no-such-thing', 'P9999', ''] as const;

const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });
/** Mostly what a car can show, sometimes what only a mistyped field can. */
const reading = (min: number, max: number) =>
  fc.oneof({ weight: 9, arbitrary: finite(min, max) }, { weight: 1, arbitrary: fc.constantFrom(0, -0, 1e6, -1e6, 1e-12) });

export function anyCase(knowledge: Knowledge): fc.Arbitrary<Case> {
  const idOf = (table: object) =>
    fc.oneof({ weight: 24, arbitrary: fc.constantFrom(...Object.keys(table)) }, { weight: 1, arbitrary: fc.constantFrom(...foreign) });
  const some = (table: object, maxLength: number) => fc.uniqueArray(idOf(table), { maxLength });
  const presences = (table: object, maxKeys: number) =>
    fc.dictionary(idOf(table), fc.constantFrom('present' as const, 'absent' as const), { maxKeys });

  const code = idOf(knowledge.codes);
  const familyOf = Map.groupBy(Object.values(knowledge.codes), ({ family }) => family);
  const codes = fc.oneof(
    { weight: 5, arbitrary: code.map((id) => [id]) },
    // Several codes of one family, as one fault leaves them.
    {
      weight: 3,
      arbitrary: fc
        .constantFrom(...familyOf.values())
        .chain((list) => fc.uniqueArray(fc.constantFrom(...list.map(({ id }) => id)), { minLength: 1, maxLength: 6 })),
    },
    { weight: 2, arbitrary: fc.uniqueArray(code, { maxLength: 5 }) },
  );

  const trait = fc
    .constantFrom(...Object.values(knowledge.traits))
    .chain(({ id, values }) => idOf(values).map((value) => [id, value] as const));
  const cylinders = fc.integer({ min: 1, max: 16 });
  const engine = fc
    .record(
      {
        traits: fc.array(trait, { maxLength: 5 }),
        cylinders,
        firingOrder: fc.oneof(
          fc.constantFrom([1, 3, 4, 2], [1, 5, 3, 6, 2, 4], [1, 4, 2, 5, 3, 6]),
          fc.array(cylinders, { maxLength: 16 }),
        ),
        bank1: fc.uniqueArray(cylinders, { maxLength: 8 }),
        recentWork: some(knowledge.recentWork, 3),
      },
      { requiredKeys: [] },
    )
    .map(({ traits, ...rest }) => ({ ...Object.fromEntries(traits ?? []), ...rest }));

  const check = fc
    .constantFrom(...Object.values(knowledge.checks))
    .chain(({ id, outcomes }) =>
      fc
        .oneof(
          { weight: 19, arbitrary: fc.constantFrom(...outcomes.map((outcome) => outcome.id)) },
          { weight: 1, arbitrary: fc.constantFrom(...foreign) },
        )
        .map((outcome) => ({ check: id, outcome })),
    );
  const result = fc.oneof(
    { weight: 19, arbitrary: check },
    { weight: 1, arbitrary: fc.constantFrom(...foreign).map((id) => ({ check: id, outcome: 'yes' })) },
  );
  const partsAndCauses = { ...knowledge.parts, ...knowledge.causes };

  return fc.record(
    {
      codes,
      engine,
      symptoms: presences(knowledge.symptoms, 6),
      conditions: presences(knowledge.conditions, 4),
      freezeFrame: fc.record(
        {
          engineSpeedRpm: reading(0, 8000),
          loadPercent: reading(0, 100),
          coolantCelsius: reading(-40, 215),
          intakeAirCelsius: reading(-40, 215),
          vehicleSpeedKmh: reading(0, 255),
          manifoldKpa: reading(0, 255),
          airFlowGramsPerSecond: reading(0, 655),
          throttlePercent: reading(0, 100),
          shortTrim1Percent: reading(-100, 99.2),
          longTrim1Percent: reading(-100, 99.2),
          shortTrim2Percent: reading(-100, 99.2),
          longTrim2Percent: reading(-100, 99.2),
        },
        { requiredKeys: [] },
      ),
      trims: fc.record(
        {
          idleBank1Percent: reading(-100, 99.2),
          idleBank2Percent: reading(-100, 99.2),
          at2500Bank1Percent: reading(-100, 99.2),
          at2500Bank2Percent: reading(-100, 99.2),
        },
        { requiredKeys: [] },
      ),
      replaced: some(partsAndCauses, 5),
      results: fc.array(result, { maxLength: 8 }),
      repaired: some(knowledge.causes, 4),
      notPossible: some({ ...knowledge.checks, ...knowledge.causes }, 10),
      tools: some(knowledge.tools, 8),
      setUpsDone: some(knowledge.setUps, 4),
      engineIsWarm: fc.boolean(),
      hourlyRate: fc.oneof(fc.integer({ min: 0, max: 1000 }), finite(0, 200)),
    },
    { requiredKeys: ['codes'] },
  );
}
