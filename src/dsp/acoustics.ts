/** Speed of sound and comb filters: the arithmetic of a path difference. */

/**
 * Speed of sound in dry air, m/s, ideal gas: 331.3·√(1+t/273.15); within 0.8 m/s of Cramer (JASA 93, 1993) for 0–30 °C, dry.
 * @param temperatureC −20…50
 */
export function speedOfSound(temperatureC: number): number {
  return 331.3 * Math.sqrt(1 + temperatureC / 273.15);
}

/** Path of sound during `delaySeconds`, cm. */
export function pathCm(delaySeconds: number, temperatureC: number): number {
  return delaySeconds * speedOfSound(temperatureC) * 100;
}

/** Delay of a path difference, s. */
export function delaySeconds(pathCm: number, temperatureC: number): number {
  return pathCm / 100 / speedOfSound(temperatureC);
}
