import { z } from 'zod';
import { letters } from '../bounds.ts';
import type { CropKey } from '../ids.ts';
import { choiceField, optionalDateField, optionalTextField } from './form-fields.ts';

/** Where a household gardens, as it typed it: a town, and dates of its own where it knows better. */
export const groundForm = z.object({
  town: optionalTextField('Nearest town, with its state', letters.town),
  station: optionalTextField('Weather station', 20),
  lastFrost: optionalDateField('Your last frost of spring, about'),
  firstFrost: optionalDateField('Your first frost of fall, about'),
  strawberriesFrom: optionalDateField('Strawberries begin here, about'),
});
export type TypedGround = Readonly<z.output<typeof groundForm>>;

/** The same with the town found. Days are written `05-12`, of any year. */
export interface GroundRequest {
  readonly town: string | null;
  readonly station: string | null;
  readonly state: string | null;
  readonly lastFrost: string | null;
  readonly firstFrost: string | null;
  readonly strawberriesFrom: string | null;
  /** Of the season tables; left out where it stays as it is. */
  readonly region?: string | null;
}

/** How early or late a year runs, in the few words a gardener says; empty takes it back. */
const latenessChoices = ['', '-21', '-14', '-7', '0', '7', '14', '21'] as const;

export const latenessForm = z.object({ days: choiceField('lateness', latenessChoices) });

export interface LatenessRequest {
  readonly year: number;
  /** Null for all crops. */
  readonly crop: CropKey | null;
  /** Later when positive; null: nothing is said. */
  readonly days: number | null;
}
