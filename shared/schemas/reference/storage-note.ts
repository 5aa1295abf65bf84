import { z } from 'zod';
import { basis, optionalNumberCell, sourceKey, tableKey } from './cells.ts';

/** How storage temperature changes life; the implied factor per 18 °F is computed from the two published lives. */
export const storageNoteRow = z
  .object({
    note_key: tableKey,
    food: z.string().min(1),
    measure: z.string().min(1),
    temp1_f: optionalNumberCell,
    value1: optionalNumberCell,
    temp2_f: optionalNumberCell,
    value2: optionalNumberCell,
    implied_q10: optionalNumberCell,
    source_id: sourceKey,
    basis,
  })
  .transform((row) => ({
    noteKey: row.note_key,
    food: row.food,
    measure: row.measure,
    firstTemperatureF: row.temp1_f,
    firstValue: row.value1,
    secondTemperatureF: row.temp2_f,
    secondValue: row.value2,
    impliedQ10: row.implied_q10,
    sourceId: row.source_id,
    basis: row.basis,
  }));
