import { z } from 'zod';
import { bounds } from '../bounds.ts';
import { itemId } from '../ids.ts';
import { jarSizes } from '../jar.ts';
import { numberField, optionalChoiceField, optionalNumberField } from './form-fields.ts';
import { idField } from './id-fields.ts';

const jarsOfTheirOwn = (label: string) =>
  optionalNumberField({ label, ...bounds.jarsOfTheirOwn, unit: 'jars', example: '12' });

/** What one jar of an item is to be: so many servings, a meal or not, and sizes of their own for gifts and lunches. */
export const jarWishForm = z
  .object({
    itemId: idField('Item', itemId),
    servingsPerUnit: numberField({ label: 'Servings in one jar', ...bounds.servingsPerUnit, example: '4' }),
    mealServings: optionalNumberField({
      label: 'Servings in one meal',
      ...bounds.mealServings,
      example: '4',
    }),
    giftSize: optionalChoiceField('Jar for gifts', jarSizes),
    giftJars: jarsOfTheirOwn('Jars for gifts'),
    lunchSize: optionalChoiceField('Jar for lunches', jarSizes),
    lunchJars: jarsOfTheirOwn('Jars for lunches'),
  })
  .superRefine((wish, context) => {
    for (const purpose of ['gift', 'lunch'] as const) {
      const [size, jars] = [wish[`${purpose}Size`], wish[`${purpose}Jars`]];
      if ((size === null) === (jars === null)) continue;
      const missing = size === null ? 'Size' : 'Jars';
      context.addIssue({
        code: 'custom',
        path: [`${purpose}${missing}`],
        message:
          size === null
            ? 'Choose a size for these jars, or empty the number.'
            : 'Write how many jars of this size a year, or choose no size.',
      });
    }
  });
export type JarWishRequest = Readonly<z.output<typeof jarWishForm>>;
