/**
 * Air pressure at an altitude in the standard atmosphere, in pascals, for the troposphere (up to 36,089 ft).
 *
 * pressure = 101,325 · (1 − 0.0065 · height / 288.15) ^ 5.25588, height in metres.
 *
 * Source: US Standard Atmosphere, 1976 (NOAA, NASA, USAF), sea-level values and lapse rate 6.5 K/km.
 */
export const standardPressurePa = (altitudeFt: number): number =>
  101_325 * (1 - (0.0065 * altitudeFt * 0.3048) / 288.15) ** 5.255_88;

/** Coefficients of the saturation line, region 4 of the industrial formulation. */
const n = [
  0.116_705_214_527_67e4, -0.724_213_167_032_06e6, -0.170_738_469_400_92e2, 0.120_208_247_024_7e5,
  -0.323_255_503_223_33e7, 0.149_151_086_135_3e2, -0.482_326_573_615_91e4, 0.405_113_405_420_57e6,
  -0.238_555_575_678_49, 0.650_175_348_447_98e3,
] as const;

/**
 * Temperature at which water boils under a pressure, in kelvin.
 *
 * Source: International Association for the Properties of Water and Steam, Industrial Formulation 1997 (R7-97, revised
 * 2012), backward saturation equation 31, region 4, coefficients of table 34. Example of its table 36: 1 MPa, 453.035632 K.
 */
export const saturationTemperatureK = (pressurePa: number): number => {
  const beta = (pressurePa / 1e6) ** 0.25;
  const e = beta ** 2 + n[2] * beta + n[5];
  const f = n[0] * beta ** 2 + n[3] * beta + n[6];
  const g = n[1] * beta ** 2 + n[4] * beta + n[7];
  const d = (2 * g) / (-f - Math.sqrt(f ** 2 - 4 * e * g));
  return (n[9] + d - Math.sqrt((n[9] + d) ** 2 - 4 * (n[8] + n[9] * d))) / 2;
};

/**
 * Boiling point of water at an altitude, in degrees Fahrenheit, for explanation only: it never changes a time.
 *
 * Example: about 203 °F at 5,000 ft.
 */
export const boilingPointF = (altitudeFt: number): number =>
  ((saturationTemperatureK(standardPressurePa(altitudeFt)) - 273.15) * 9) / 5 + 32;
