/** A source of numbers in [0, 1), the same on every machine for the same start. */
export type Random = () => number;

/** The generator sfc32 (Doty-Humphrey, PractRand), seeded through a Weyl sequence; from memory. */
export function seededRandom(start: number): Random {
  let a = 0x9e3779b9 ^ start;
  let b = 0x243f6a88;
  let c = 0xb7e15162;
  let counter = 1;
  const next = (): number => {
    const t = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + t;
    c |= 0;
    return (t >>> 0) / 4294967296;
  };
  for (let i = 0; i < 15; i++) next();
  return next;
}

/** Standard normal (Box & Muller 1958). */
export function sampleNormal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** Gamma with this shape and scale 1 (Marsaglia & Tsang 2000). Shape 0 gives 0. */
export function sampleGamma(shape: number, random: Random): number {
  if (shape <= 0) return 0;
  if (shape < 1) return sampleGamma(shape + 1, random) * (1 - random()) ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = sampleNormal(random);
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - random()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}

/** Dirichlet with this mean and strength (the sum of its parameters). A chance of 0 stays 0. */
export function sampleDirichlet(mean: readonly number[], strength: number, random: Random): number[] {
  const draws = mean.map((chance) => sampleGamma(chance * strength, random));
  const sum = draws.reduce((total, draw) => total + draw, 0);
  // Every draw can underflow only where the strength is next to nothing; the mean is then as good a guess.
  return sum > 0 ? draws.map((draw) => draw / sum) : [...mean];
}
