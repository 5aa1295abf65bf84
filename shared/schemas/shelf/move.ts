import { z } from 'zod';
import { lotId, placeId } from '../../ids.ts';
import { idField } from '../id-fields.ts';

const several = z.preprocess(
  (raw) => (Array.isArray(raw) ? raw : raw === undefined || raw === '' ? [] : [raw]),
  z.array(lotId).min(1, 'Tick what is carried.').max(500, '500 batches at once is the most. Tick fewer.'),
);

/** Batches carried to another place. */
export const moveForm = z.object({ lotIds: several, placeId: idField('Place', placeId) });
export type Move = Readonly<z.output<typeof moveForm>>;
