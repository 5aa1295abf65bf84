import { z } from 'zod';
import { numberCell, optionalMonthDay } from './cells.ts';

/** Freezes and warmth of a usual year at one weather station. */
export const freezeNormalRow = z
  .object({
    station: z.string().regex(/^[A-Z0-9]{11}$/, 'Expected a station like USC00050848'),
    name: z.string().min(1),
    state: z.string().regex(/^[A-Z]{2}$/, 'Expected two letters of a state'),
    latitude: numberCell,
    longitude: numberCell,
    elevation_ft: numberCell,
    last_freeze: optionalMonthDay,
    first_freeze: optionalMonthDay,
    degree_days: numberCell,
  })
  .transform((row) => ({
    station: row.station,
    name: row.name,
    state: row.state,
    latitude: row.latitude,
    longitude: row.longitude,
    elevationFt: row.elevation_ft,
    lastFreeze: row.last_freeze,
    firstFreeze: row.first_freeze,
    degreeDays: row.degree_days,
  }));
export type FreezeNormalRow = Readonly<z.output<typeof freezeNormalRow>>;
