import { z } from 'zod';
import { bounds } from '../bounds.ts';
import { itemId } from '../ids.ts';
import { jarSizes } from '../jar.ts';
import { numberField, optionalChoiceField, optionalNumberField, toldBeside } from './form-fields.ts';
import { idField } from './id-fields.ts';

const jarsOfTheirOwn = (label: string) =>
  optionalNumberField({ label, ...bounds.jarsOfTheirOwn, unit: 'jars', example: '12' });

type OwnJars = Readonly<Record<'giftSize' | 'giftJars' | 'lunchSize' | 'lunchJars', unknown>>;

const sizeMissing = (purpose: 'gift' | 'lunch') =>
  toldBeside<OwnJars>(
    `${purpose}Size`,
    [`${purpose}Size`, `${purpose}Jars`],
    'Choose a size for these jars, or empty the number.',
  );
const jarsMissing = (purpose: 'gift' | 'lunch') =>
  toldBeside<OwnJars>(
    `${purpose}Jars`,
    [`${purpose}Size`, `${purpose}Jars`],
    'Write how many jars of this size a year, or choose no size.',
  );

/** What one jar of an item is to be: so many servings, a meal or not, and sizes of their own for gifts and lunches. */
export const jarWishForm = z
  .object({
    itemId: idField('Item', itemId),
    servingsPerUnit: numberField({ label: 'The number', ...bounds.servingsPerUnit, example: '4' }),
    mealServings: optionalNumberField({
      label: 'Servings in one meal',
      ...bounds.mealServings,
      example: '4',
    }),
    giftSize: optionalChoiceField('jar size', jarSizes),
    giftJars: jarsOfTheirOwn('Jars for gifts'),
    lunchSize: optionalChoiceField('jar size', jarSizes),
    lunchJars: jarsOfTheirOwn('Jars for lunches'),
  })
  .refine((wish) => wish.giftJars === null || wish.giftSize !== null, sizeMissing('gift'))
  .refine((wish) => wish.giftSize === null || wish.giftJars !== null, jarsMissing('gift'))
  .refine((wish) => wish.lunchJars === null || wish.lunchSize !== null, sizeMissing('lunch'))
  .refine((wish) => wish.lunchSize === null || wish.lunchJars !== null, jarsMissing('lunch'));
export type JarWishRequest = Readonly<z.output<typeof jarWishForm>>;
