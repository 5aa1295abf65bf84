import { afterAll, beforeAll, expect, test } from 'vitest';
import { yearPicture } from '../../../server/year/year-picture.ts';
import { addDays, type CalendarDate, dateInZone } from '../../../shared/week.ts';
import { Asker } from '../../builders/asker.ts';
import { everyFormSent } from '../../builders/every-form-sent.ts';
import { medlarLane, noon, type TwoHouseholds, twoHouseholds } from '../../builders/two-households.ts';

// A picture is made from the last one wherever a part of the household's facts still says the same. Whatever is done, it must say what a
// picture made from nothing says.

let both: TwoHouseholds;
beforeAll(async () => {
  both = await twoHouseholds();
});
afterAll(() => both.close());

const plain = (picture: unknown): string =>
  JSON.stringify(picture, (_name, value: unknown) =>
    value instanceof Map || value instanceof Set ? [...value] : value,
  );

/** The picture as the pages have it, and made by a program that has read nothing of this household yet. */
async function asKeptAndAnew(on: CalendarDate): Promise<readonly [string, string]> {
  const reference = both.app.reference;
  const kept = await yearPicture(both.db, medlarLane, on, reference);
  const anew = await yearPicture(both.db.withoutPlugins(), medlarLane, on, reference);
  return [plain(kept), plain(anew)];
}

test('after every form the picture says what one made from nothing says', async () => {
  const asker = new Asker(both.app, (who) => both.tokenOf.get(who) ?? '', both.medlar.accessToken);
  const today = dateInZone(noon, 'UTC');
  let [last] = await asKeptAndAnew(today);
  let changing = 0;
  const otherwise: string[] = [];
  await everyFormSent(both, asker, async (sentTo) => {
    const [kept, anew] = await asKeptAndAnew(today);
    if (kept !== last) changing += 1;
    if (kept !== anew) otherwise.push(sentTo);
    last = kept;
  });

  expect(changing).toBeGreaterThan(10);
  expect(otherwise).toEqual([]);
});

test('and so it does on another day', async () => {
  const today = dateInZone(noon, 'UTC');
  const otherwise: number[] = [];
  for (const days of [1, 7, 40]) {
    const [kept, anew] = await asKeptAndAnew(addDays(today, days));
    if (kept !== anew) otherwise.push(days);
  }
  expect(otherwise).toEqual([]);
});
