import { z } from 'zod';
import { bounds } from '../bounds.ts';
import { itemId } from '../ids.ts';
import {
  choiceField,
  numberField,
  optionalDateField,
  optionalNumberField,
  tickField,
} from './form-fields.ts';
import { idField } from './id-fields.ts';

export const usePeriods = ['week', 'month', 'year', 'meal', 'school-week'] as const;
export type UsePeriod = (typeof usePeriods)[number];

/** How much the household eats of an item, in its own words. */
export const declaredUseForm = z
  .object({
    itemId: idField('Item', itemId),
    amount: numberField({ label: 'Use', ...bounds.useAmount, example: '1.5' }),
    per: choiceField('Per', usePeriods),
    countedIn: choiceField('Counted in', ['units', 'servings'] as const).prefault('units'),
    people: optionalNumberField({ label: 'People', ...bounds.eaters, example: '4' }),
    mealsPerWeek: optionalNumberField({ label: 'Meals a week', ...bounds.mealsPerWeek, example: '2' }),
    sinceOn: optionalDateField('From'),
    /** "From now on": what was seen before no longer counts. */
    restartsFilter: tickField(),
  })
  .refine((use) => use.per !== 'meal' || use.mealsPerWeek !== null, {
    message: 'You said the use per meal. Write how many such meals there are in a week.',
    path: ['mealsPerWeek'],
  });
export type DeclaredUseRequest = Readonly<z.output<typeof declaredUseForm>>;

/** A yearly target set by hand; empty takes it back, and the target follows from use again. */
export const handTargetForm = z.object({
  itemId: idField('Item', itemId),
  units: optionalNumberField({ label: 'Yearly target', ...bounds.yearlyUnits, example: '60' }),
});
export type HandTarget = Readonly<z.output<typeof handTargetForm>>;
