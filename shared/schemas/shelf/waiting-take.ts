import { z } from 'zod';
import { bounds, letters } from '../../bounds.ts';
import { householdId, itemId, lotId } from '../../ids.ts';
import { choiceField, dateField, numberField, optionalTextField, tickField } from '../form-fields.ts';
import { idField, optionalIdField } from '../id-fields.ts';

export const takeOutcomes = [
  'took-one',
  'taken',
  'given-away',
  'given-jar-back',
  'not-to-taste',
  'broken',
  'unsealed',
  'sorted-out',
] as const;
/** What the person said became of a unit. */
export type TakeOutcome = (typeof takeOutcomes)[number];

/** A take that waited on a device without signal. */
export const waitingTakeForm = z.object({
  key: z.string().min(8).max(200),
  /** Whose shelf the page showed on which it was taken, and who was signed in there; empty when nobody was. */
  household: idField('Household', householdId),
  person: z.string().max(letters.person),
  itemId: idField('Item', itemId),
  lotId: optionalIdField('Batch', lotId),
  units: numberField({ label: 'How many', ...bounds.unitsTaken, example: '1' }),
  outcome: choiceField('answer', takeOutcomes),
  occurredOn: dateField('Date'),
  forPromise: tickField(),
  /** The member who took it; empty: who was signed in. */
  who: optionalTextField('Who took it', letters.person).prefault(''),
  /** The device's own clock, ms since 1970: only for the order in which things were done there. */
  deviceAt: z.number().int().nonnegative(),
});
export type WaitingTake = Readonly<z.output<typeof waitingTakeForm>>;

/** What a device sends at once; each take is read on its own, so that a broken one holds up no other. */
export const waitingTakes = z.object({
  takes: z
    .array(z.looseObject({ key: z.string().max(200).catch('') }))
    .min(1)
    .max(500),
});
