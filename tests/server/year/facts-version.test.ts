import { afterAll, beforeAll, expect, test } from 'vitest';
import { openConflicts } from '../../../server/queries/shelf/conflicts.ts';
import { statedGround } from '../../../server/queries/year/ground.ts';
import { householdFacts } from '../../../server/year/household-facts.ts';
import { yearMark } from '../../../server/year/year-mark.ts';
import { dateInZone } from '../../../shared/week.ts';
import { Asker } from '../../builders/asker.ts';
import { everyFormSent } from '../../builders/every-form-sent.ts';
import { medlarLane, noon, type TwoHouseholds, twoHouseholds } from '../../builders/two-households.ts';

// Pages read what the household said and did from the picture of its year, and what hangs on it, which stands as long as the version of the
// facts: whatever changes one of them steps it.

let both: TwoHouseholds;
beforeAll(async () => {
  both = await twoHouseholds();
});
afterAll(() => both.close());

test('no form changes a fact and leaves the mark of the year as it was', async () => {
  const asker = new Asker(both.app, (who) => both.tokenOf.get(who) ?? '', both.medlar.accessToken);
  const today = dateInZone(noon, 'UTC');
  const standing = async () => {
    const { version: _, ...facts } = await householdFacts(both.db, medlarLane, today);
    const beside = {
      ground: await statedGround(both.db, medlarLane),
      conflicts: await openConflicts(both.db, medlarLane),
    };
    const plain = JSON.stringify({ ...facts, ...beside }, (_name, value: unknown) =>
      value instanceof Map || value instanceof Set ? [...value] : value,
    );
    return { facts: plain, mark: await yearMark(both.db, medlarLane) };
  };
  let before = await standing();
  let changing = 0;
  const unmarked: string[] = [];
  await everyFormSent(both, asker, async (sentTo) => {
    const after = await standing();
    if (after.facts !== before.facts) changing += 1;
    if (after.facts !== before.facts && after.mark === before.mark) unmarked.push(sentTo);
    before = after;
  });

  expect(changing).toBeGreaterThan(10);
  expect(unmarked).toEqual([]);
});
