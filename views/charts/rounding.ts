/** Tenths are finer than any eye and keep the page small. */
export const round = (value: number): number => Math.round(value * 10) / 10;
