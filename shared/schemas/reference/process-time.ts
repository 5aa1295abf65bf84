import { z } from 'zod';
import { jarSize } from '../../jar.ts';
import { basis, numberCell, optionalNumberCell, sourceKey, tableKey } from './cells.ts';

export const acidity = z.enum(['acid', 'acidified', 'low-acid']);
export type Acidity = z.output<typeof acidity>;

export const printedMethod = z.enum(['boiling-water', 'pressure-dial', 'pressure-weighted']);
export type PrintedMethod = z.output<typeof printedMethod>;

export const pack = z.enum(['hot', 'raw', 'none']);
export type Pack = z.output<typeof pack>;

/** One printed processing time: a whole row, never taken apart. */
export const processTimeRow = z
  .object({
    food_key: tableKey,
    food: z.string().min(1),
    style: z.string().min(1),
    acidity,
    method: printedMethod,
    pack,
    jar: jarSize,
    headspace_in: optionalNumberCell,
    alt_from_ft: numberCell.refine((feet) => feet >= 0, 'Expected an altitude of 0 ft or more'),
    alt_to_ft: optionalNumberCell,
    minutes: numberCell.refine(
      (minutes) => Number.isInteger(minutes) && minutes >= 1 && minutes <= 600,
      'Expected whole minutes from 1 to 600',
    ),
    psi: optionalNumberCell.refine(
      (psi) => psi === null || (psi >= 5 && psi <= 15),
      'Expected a pressure from 5 to 15 psi',
    ),
    source_id: sourceKey,
    source_locator: z.string().min(1),
    basis,
  })
  .refine((row) => row.alt_to_ft === null || row.alt_to_ft > row.alt_from_ft, {
    message: 'Expected the upper altitude above the lower one',
    path: ['alt_to_ft'],
  })
  .refine((row) => (row.method === 'boiling-water') === (row.psi === null), {
    message: 'Expected a pressure on pressure-canner rows and none on boiling-water rows',
    path: ['psi'],
  })
  .transform((row) => ({
    foodKey: row.food_key,
    food: row.food,
    style: row.style,
    acidity: row.acidity,
    method: row.method,
    pack: row.pack,
    jar: row.jar,
    headspaceIn: row.headspace_in,
    altitudeFromFt: row.alt_from_ft,
    altitudeToFt: row.alt_to_ft,
    minutes: row.minutes,
    psi: row.psi,
    sourceId: row.source_id,
    locator: row.source_locator,
    basis: row.basis,
  }));
export type ProcessTimeRow = Readonly<z.output<typeof processTimeRow>>;
