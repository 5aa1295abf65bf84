/** Tenths are finer than any eye and keep the page small. */
export const round = (value: number): number => Math.round(value * 10) / 10;

/** A count as a mark can carry it: whole from ten up, one decimal below unless it is whole. */
export const formatPlainCount = (count: number): string =>
  count >= 10 || Number.isInteger(count) ? String(Math.round(count)) : String(Math.round(count * 10) / 10);
