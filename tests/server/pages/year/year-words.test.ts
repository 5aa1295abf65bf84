import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Database, openDatabase } from '../../../../server/database/database.ts';
import { makeDemoHousehold } from '../../../../server/demo/make-demo.ts';
import { yearWords } from '../../../../server/pages/year/year-words.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { type YearPicture, yearPicture } from '../../../../server/year/year-picture.ts';
import { asDate } from '../../../../shared/week.ts';
import type { ItemYear } from '../../../../src/planning/year/item-year.ts';
import { usReading } from '../../../../views/words/reading.ts';

const reference = loadReferenceTables();
const asOf = asDate('2026-08-12');

let db: Database;
let picture: YearPicture;
beforeAll(async () => {
  db = await openDatabase(':memory:');
  picture = await yearPicture(db, await makeDemoHousehold(db, asOf), asOf, reference);
});
afterAll(() => db.destroy());

const yearOf = (itemId: string): ItemYear => {
  const found = picture.items.find(({ item }) => item.id === itemId);
  if (found === undefined) throw new Error(`the demo household keeps no ${itemId}`);
  return found;
};
const wordsOf = (itemYear: ItemYear) =>
  yearWords(itemYear, { picture, reading: usReading, crops: reference.harvestWindows });
const nextOf = (itemId: string): string => wordsOf(yearOf(itemId)).next;

// The demo household’s own harvest windows, as seen on August 12.
describe('when something can be had again', () => {
  it.each([
    ['peach-halves', 'peaches now'],
    ['cherry-jam', 'cherries in June'],
    ['bread-and-butter-pickles', 'cucumbers now, ready in September'],
    ['oats', 'any week in the shop'],
  ])('%s: %s', (itemId, words) => {
    expect(nextOf(itemId)).toBe(words);
  });
});

describe('how sure it is to last', () => {
  const bareIn = (itemId: string): ItemYear => ({ ...yearOf(itemId), gaps: [{ from: 20, until: 22 }] });

  it('is said of what has no gap ahead', () => {
    expect(wordsOf({ ...yearOf('oats'), gaps: [] })).toMatchObject({
      bare: null,
      sure: expect.stringMatching(/year/),
    });
  });

  it('is not said of what the shop has any week and nobody buys for some weeks: there is no “till then”', () => {
    expect(wordsOf(bareIn('oats'))).toMatchObject({
      bare: expect.stringMatching(/^none for 2 weeks/),
      sure: '',
    });
  });

  it('is said up to its season of what is made', () => {
    expect(wordsOf(bareIn('peach-halves')).sure).not.toBe('');
  });
});
