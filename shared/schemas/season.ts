import { z } from 'zod';
import { bounds } from '../bounds.ts';
import { itemId } from '../ids.ts';
import { monthNames } from '../month-names.ts';
import { numberField, toldBeside } from './form-fields.ts';
import { idField } from './id-fields.ts';

/** Field of a month in the form, 1 to 12. */
export const monthField = (month: number): string => `month${month}`;

/** How an item's use goes through the year: twelve percentages of the usual, January first. */
export const seasonForm = z
  .looseObject({
    itemId: idField('Item', itemId),
    ...Object.fromEntries(
      monthNames.map((name, at) => [
        monthField(at + 1),
        numberField({ label: name, ...bounds.seasonPercent, unit: '%', example: '100' }),
      ]),
    ),
  })
  .refine(
    (typed) => monthNames.some((_, at) => Number(typed[monthField(at + 1)]) > 0),
    toldBeside<Readonly<Record<string, unknown>>>(
      monthField(1),
      monthNames.map((_, at) => monthField(at + 1)),
      'No month is above 0%. If it is not eaten at all, say 0 a week instead.',
    ),
  )
  .transform((typed) => ({
    itemId: typed.itemId,
    percentByMonth: monthNames.map((_, at) => Number(typed[monthField(at + 1)])),
  }));
export type SeasonRequest = Readonly<z.output<typeof seasonForm>>;
