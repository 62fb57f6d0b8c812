/**
 * Manifold vacuum against altitude. Two ways: the workshop rule of 1 inHg less for each 1,000 ft (United States Army Ordnance
 * course OD1001, lesson 3), and the barometric formula of the standard atmosphere (US Standard Atmosphere 1976, first layer,
 * the same as ISO 2533; constants as printed in secondary sources).
 */

/** 1 inch of mercury, conventional, in kPa (NIST SP 811, appendix B.8, from memory of it). */
export const kPaPerInHg = 3.386389;
const metresPer1000Feet = 304.8;

const seaLevelKpa = 101.325;
const seaLevelKelvin = 288.15;
const lapseKelvinPerMetre = 0.0065;
/** g M / (R L) with 9.80665 m/s², 0.0289644 kg/mol, 8.31432 J/(mol K). */
const exponent = (9.80665 * 0.0289644) / (8.31432 * lapseKelvinPerMetre);

/** Heights between which the formula holds, in metres. */
export const lowestMetres = -610;
export const highestMetres = 11_000;

/** Pressure of the standard atmosphere, kPa. Null outside the layer that the formula describes. */
export function barometerKpa(altitudeMetres: number): number | null {
  if (!(altitudeMetres >= lowestMetres && altitudeMetres <= highestMetres)) return null;
  return seaLevelKpa * (1 - (lapseKelvinPerMetre * altitudeMetres) / seaLevelKelvin) ** exponent;
}

/** The workshop rule: vacuum to expect at a height, kPa, from the figure at sea level. Never below zero. */
export const expectedByRuleKpa = (seaLevelVacuumKpa: number, altitudeMetres: number): number =>
  Math.max(0, seaLevelVacuumKpa - (kPaPerInHg * altitudeMetres) / metresPer1000Feet);

/**
 * Vacuum to expect by the standard atmosphere, kPa: the engine is taken to idle with the same absolute pressure in its
 * manifold at every height, so the vacuum falls by as much as the barometer.
 */
export function expectedByAtmosphereKpa(seaLevelVacuumKpa: number, altitudeMetres: number): number | null {
  const barometer = barometerKpa(altitudeMetres);
  return barometer === null ? null : Math.max(0, seaLevelVacuumKpa - (seaLevelKpa - barometer));
}

/** A reading carried to sea level by the workshop rule, kPa: what the limits of a check are written for. */
export const carriedToSeaLevelKpa = (readingKpa: number, altitudeMetres: number): number =>
  readingKpa + (kPaPerInHg * altitudeMetres) / metresPer1000Feet;

/** Absolute pressure in the manifold, kPa: barometer minus vacuum. Null when the barometer is not known, or below the vacuum. */
export function manifoldAbsoluteKpa(readingKpa: number, altitudeMetres: number): number | null {
  const barometer = barometerKpa(altitudeMetres);
  return barometer === null || readingKpa > barometer ? null : barometer - readingKpa;
}
