import { z } from 'zod';
import { sourceKey } from './cells.ts';

/** Where figures came from and how far they were read. */
export const sourceRow = z
  .object({
    source_id: sourceKey,
    publisher: z.string().min(1),
    title: z.string().min(1),
    edition: z.string(),
    address: z.string(),
    how_read: z.enum(['text', 'copy', 'secondary', 'memory']),
    note: z.string(),
    terms: z.string().min(1),
  })
  .transform((row) => ({
    sourceId: row.source_id,
    publisher: row.publisher,
    title: row.title,
    edition: row.edition,
    address: row.address,
    howRead: row.how_read,
    note: row.note,
    terms: row.terms,
  }));
export type SourceRow = Readonly<z.output<typeof sourceRow>>;
