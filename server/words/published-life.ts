import { counted } from '../../shared/counting.ts';
import type { PublishedLife } from '../../src/preserving/recipes/recipe-life.ts';
import { formatNumber } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';

/** "365 days", or "274 to 365 days" where the source gives a range. */
export const publishedLifeWords = ({ least, most }: PublishedLife, reading: Reading): string =>
  least === most
    ? counted(formatNumber(most, reading), 'day')
    : `${formatNumber(least, reading)} to ${counted(formatNumber(most, reading), 'day')}`;
