import { z } from 'zod';
import { letters } from '../bounds.ts';

/** Which stored value is to be mended: table, row as the file numbers it, column. No person types it. */
export const unfitForm = z.object({
  table: z.string().max(letters.key),
  row: z.coerce.number().refine(Number.isSafeInteger),
  column: z.string().max(letters.key),
});
export type UnfitRequest = Readonly<z.output<typeof unfitForm>>;
