import { z } from 'zod';
import { bounds, moneyBounds } from '../../bounds.ts';
import { itemId, placeId } from '../../ids.ts';
import { jarKind } from '../../jar.ts';
import { moneyField, numberField, optionalDateField } from '../form-fields.ts';
import { idField, optionalIdField } from '../id-fields.ts';

/** Something comes onto the shelf from outside: bought, or received from somebody. */
export const purchaseForm = z.object({
  itemId: idField('Item', itemId),
  units: numberField({ label: 'How many', ...bounds.units, example: '2' }),
  jarKind: optionalIdField('Jar', jarKind),
  boughtOn: optionalDateField('Day it was put up or bought'),
  bestQualityUntil: optionalDateField('Date printed on it'),
  placeId: optionalIdField('Place', placeId),
  origin: z.enum(['bought', 'received']).prefault('bought'),
  paid: moneyField({ label: 'Paid in all', ...moneyBounds.paid })
    .nullable()
    .prefault(null),
});
export type Purchase = Readonly<z.output<typeof purchaseForm>>;
