import { afterEach, expect, test } from 'vitest';
import { buildApp } from '../../../../server/app.ts';
import { loadReferenceTables } from '../../../../server/reference/load-reference.ts';
import { loadPlanningYear } from '../../../../server/year/load-year.ts';
import { asDate } from '../../../../shared/week.ts';
import { type Cast, quinceYard, quinceYardHousehold } from '../../../builders/quince-yard.ts';
import { Visitor, wordsOf } from '../../../builders/visitor.ts';

const reference = loadReferenceTables();
let cast: Cast | null = null;
afterEach(async () => cast?.db.destroy());

/** What a household sees on Sunday 23 August 2026 at noon. */
const onSunday = async (startsOn: 'monday' | 'sunday') => {
  cast = await quinceYardHousehold();
  const { db } = cast;
  await db.updateTable('household').set({ week_starts_on: startsOn }).execute();
  const app = await buildApp({ db, reference, now: () => Date.UTC(2026, 7, 23, 18) });
  const words = wordsOf((await new Visitor(app).open('/')).body);
  await app.close();
  const { year } = await loadPlanningYear(db, quinceYard, asDate('2026-08-23'), reference);
  return { words, firstWeek: year.weeks[0] };
};

test('on a Sunday the page and the plan begin the week of that Sunday, where weeks begin on Sunday', async () => {
  const { words, firstWeek } = await onSunday('sunday');

  expect(words).toContain('Week of Aug 23');
  expect(firstWeek).toBe('2026-W35');
});

test('where weeks begin on Monday, Sunday is the last day of its week', async () => {
  const { words, firstWeek } = await onSunday('monday');

  expect(words).toContain('Week of Aug 17');
  expect(firstWeek).toBe('2026-W34');
});
