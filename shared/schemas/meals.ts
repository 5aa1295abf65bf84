import { z } from 'zod';
import { bounds } from '../bounds.ts';
import { optionalDateField, optionalNumberField, toldBeside } from './form-fields.ts';

/** For how many days a household wants to be ready, and the water it keeps, in its own unit: gallons, or liters. */
export const emergencyWishForm = z
  .object({
    days: optionalNumberField({ label: 'For how many days', ...bounds.emergencyDays, example: '14' }),
    water: optionalNumberField({ label: 'Water you keep', ...bounds.waterKept, example: '20' }),
    filledOn: optionalDateField('Filled on'),
  })
  .refine(
    ({ water, filledOn }) => filledOn === null || water !== null,
    toldBeside<Readonly<Record<'water' | 'filledOn', unknown>>>(
      'water',
      ['water', 'filledOn'],
      'Write how much water was filled that day, or clear the day.',
    ),
  );
export type EmergencyWish = Readonly<z.output<typeof emergencyWishForm>>;

const servings = (label: string) =>
  optionalNumberField({ label, ...bounds.servingsAWeek, unit: 'servings', example: '7' });

/** Servings a household wants for each person and week; empty wants none. */
export const servingsWantedForm = z.object({
  fruit: servings('Fruit'),
  vegetable: servings('Vegetables'),
  protein: servings('Protein'),
  sweet: servings('Sweet'),
});
export type ServingsWanted = Readonly<z.output<typeof servingsWantedForm>>;
