import { z } from 'zod';
import { bounds } from '../bounds.ts';
import { itemId } from '../ids.ts';
import {
  choiceField,
  numberField,
  optionalDateField,
  optionalNumberField,
  tickField,
  toldBeside,
} from './form-fields.ts';
import { idField } from './id-fields.ts';

export const usePeriods = ['week', 'month', 'year', 'meal', 'school-week'] as const;
export type UsePeriod = (typeof usePeriods)[number];

/** How much the household eats of an item, in its own words. */
export const declaredUseForm = z
  .object({
    itemId: idField('Item', itemId),
    amount: numberField({ label: 'How much you eat', ...bounds.useAmount, example: '1.5' }),
    per: choiceField('time', usePeriods),
    countedIn: choiceField('way to count', ['units', 'servings'] as const).prefault('units'),
    people: optionalNumberField({ label: 'People who eat it', ...bounds.eaters, example: '4' }),
    mealsPerWeek: optionalNumberField({ label: 'Such meals a week', ...bounds.mealsPerWeek, example: '2' }),
    sinceOn: optionalDateField('Since'),
    /** "From now on": what was seen before no longer counts. */
    restartsFilter: tickField(),
  })
  .refine(
    (use) => use.per !== 'meal' || use.mealsPerWeek !== null,
    toldBeside<Readonly<Record<'per' | 'mealsPerWeek', unknown>>>(
      'mealsPerWeek',
      ['per', 'mealsPerWeek'],
      'You count by the meal. Write how many such meals there are in a week.',
    ),
  );
export type DeclaredUseRequest = Readonly<z.output<typeof declaredUseForm>>;

/** A yearly target set by hand; empty takes it back, and the target follows from use again. */
export const handTargetForm = z.object({
  itemId: idField('Item', itemId),
  units: optionalNumberField({ label: 'Set by hand', ...bounds.yearlyUnits, example: '60' }),
});
export type HandTarget = Readonly<z.output<typeof handTargetForm>>;
