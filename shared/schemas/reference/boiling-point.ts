import { z } from 'zod';
import { basis, numberCell, sourceKey } from './cells.ts';

/** Boiling point of water at an altitude, for explanation only. */
export const boilingPointRow = z
  .object({ altitude_ft: numberCell, boiling_point_F: numberCell, source_id: sourceKey, basis })
  .transform((row) => ({
    altitudeFt: row.altitude_ft,
    boilingPointF: row.boiling_point_F,
    sourceId: row.source_id,
    basis: row.basis,
  }));
