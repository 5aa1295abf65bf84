import { z } from 'zod';
import { bounds, letters } from '../../bounds.ts';
import { itemId, lotId } from '../../ids.ts';
import { jarKind } from '../../jar.ts';
import type { CalendarDate } from '../../week.ts';
import {
  choiceField,
  numberField,
  optionalDateField,
  optionalTextField,
  tickField,
  toldBeside,
} from '../form-fields.ts';
import { optionalIdField } from '../id-fields.ts';

export const takeKinds = ['taken', 'given away', 'discarded', 'seal failed'] as const;
export type TakeKind = (typeof takeKinds)[number];

/**
 * Why a unit was thrown away. `sorted-out` is what a cellar loses when its bins are gone through. `not-sealed` covers everything that looks, smells or sounds wrong: it is never
 * tasted.
 */
export const discardReasons = ['taste', 'not-sealed', 'past-best', 'broken', 'sorted-out', 'other'] as const;
export type DiscardReason = (typeof discardReasons)[number];

/** Reason of a gift whose jar is expected back. */
export const jarComesBack = 'jar-comes-back';

/** A unit leaves the shelf. Without a lot the first-expired one is taken; without a date it was today. */
export const takeForm = z
  .object({
    itemId: optionalIdField('Item', itemId),
    lotId: optionalIdField('Batch', lotId),
    jarKind: optionalIdField('Jar', jarKind),
    units: numberField({ label: 'How many', ...bounds.unitsTaken, example: '1' }).prefault('1'),
    kind: choiceField('kind', takeKinds).prefault('taken'),
    reason: optionalTextField('Reason', letters.note),
    occurredOn: optionalDateField('When'),
    /** Recorded on a device without signal and sent later: nothing of it may be lost. */
    late: tickField(),
    /** What is promised to somebody is taken for that promise; otherwise it is kept back. */
    forPromise: tickField(),
    /** Who took it, by name; kept only where the household says so. */
    takenBy: optionalTextField('Who took it', letters.person),
  })
  .refine(
    (take) => take.itemId !== null || take.lotId !== null,
    toldBeside<Readonly<Record<'itemId' | 'lotId', unknown>>>(
      'itemId',
      ['itemId', 'lotId'],
      'Choose an item or a batch to take from.',
    ),
  )
  .transform((take) => ({
    ...take,
    reason: take.reason === '' ? null : take.reason,
    takenBy: take.takenBy === '' ? null : take.takenBy,
  }));
export type Take = Readonly<z.output<typeof takeForm>>;

/** The plainest take: one unit of an item, today. */
export const oneOf = (item: NonNullable<Take['itemId']>, on: CalendarDate | null = null): Take => ({
  itemId: item,
  lotId: null,
  jarKind: null,
  units: 1,
  kind: 'taken',
  reason: null,
  occurredOn: on,
  late: false,
  forPromise: false,
  takenBy: null,
});
