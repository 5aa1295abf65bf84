// Exact conversions between the measures people use; international foot, pound and US liquid quart as defined in NIST
// Handbook 44, appendix C.

/** One metre in feet. */
export const feetPerMetre = 1 / 0.3048;
/** One kilogram in pounds. */
export const poundsPerKilogram = 1 / 0.45359237;
export const millimetresPerInch = 25.4;
/** One US liquid quart in litres. */
export const litresPerQuart = 0.946352946;

export const celsiusFrom = (fahrenheit: number): number => ((fahrenheit - 32) * 5) / 9;
export const fahrenheitFrom = (celsius: number): number => (celsius * 9) / 5 + 32;
