import { z } from 'zod';
import { bounds, letters } from '../../shared/bounds.ts';
import { papers } from '../../shared/schemas/shelf/label-grid.ts';
import { noticeKinds } from '../../src/notices/notice.ts';
import { table } from './carried-table.ts';
import { instant, key, line, oneOf, orNone, withDefault, within } from './column-kinds.ts';

// Of labels, notices and guesses.

export const settingColumns = {
  label_grid: table('Labels', 1, [], {
    paper: oneOf(papers),
    columns: within(bounds.labelColumns),
    rows: within(bounds.labelRows),
    width_mm: within(bounds.labelWidthMm),
    height_mm: within(bounds.labelHeightMm),
    left_mm: within(bounds.labelGapMm),
    top_mm: within(bounds.labelGapMm),
    across_mm: within(bounds.labelGapMm),
    down_mm: within(bounds.labelGapMm),
    address: withDefault({
      ...line(letters.address, 0),
      expected: 'an address like http://192.168.1.20:8137, or an empty text',
      schema: z
        .string()
        .max(letters.address)
        .regex(/^(https?:\/\/[^\s\p{Cc}]+)?$/u),
    }),
  }),
  notice_lead: table('Days before notices', 100, ['kind'], {
    kind: oneOf(noticeKinds),
    days: orNone(within(bounds.noticeDays)),
  }),
  guess: table('Guesses of the first hour', 5000, ['kind', 'subject'], {
    kind: oneOf(['source', 'supply', 'minutes']),
    subject: key,
    guessed_at: instant,
  }),
} as const;
