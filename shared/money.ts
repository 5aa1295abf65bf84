import { z } from 'zod';

/** Whole cents; never a fraction, so sums are exact. */
export const cents = z.number().int('Expected a whole number of cents').brand<'Cents'>();
export type Cents = z.output<typeof cents>;

export const asCents = (amount: number): Cents => Math.round(amount) as Cents;
export const sumCents = (amounts: readonly Cents[]): Cents =>
  amounts.reduce<number>((total, amount) => total + amount, 0) as Cents;
