/** A number as a person would type it again: no thousands sign, at most two decimals. */
export const plain = (value: number): string => String(Math.round(value * 100) / 100);
