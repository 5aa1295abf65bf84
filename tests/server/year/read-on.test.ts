import fc from 'fast-check';
import { expect, test } from 'vitest';
import { householdText, restoreHousehold } from '../../../server/files/household-file.ts';
import { take } from '../../../server/records/shelf/take.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { householdFacts } from '../../../server/year/household-facts.ts';
import { yearPicture } from '../../../server/year/year-picture.ts';
import { oneOf } from '../../../shared/schemas/shelf/take.ts';
import { addDays } from '../../../shared/week.ts';
import { act, doIt, jamAndBeans } from '../../builders/acts-on-a-shelf.ts';
import { worked } from '../../builders/outcomes.ts';
import { plumJam, quinceYard, today } from '../../builders/quince-yard.ts';

// The ledger is read on from where it was read last, and what hangs on it goes on from what was remembered. Whatever is done, in whatever
// order, and however much of it between two looks: it says what is said by whoever reads all of it from the beginning.

const plain = (said: unknown): string =>
  JSON.stringify(said, (_name, value: unknown) =>
    value instanceof Map || value instanceof Set ? [...value] : value,
  );

test('a picture that goes on from the last one says what one made from nothing says, whatever was done', async () => {
  const reference = loadReferenceTables();
  let readOn = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(act, { minLength: 3, maxLength: 14 }), async (acts) => {
      const cast = await jamAndBeans();
      const entries: string[] = [];
      let before: Awaited<ReturnType<typeof householdFacts>> | undefined;
      let lookedOn = today;
      await yearPicture(cast.db, quinceYard, today, reference);
      for (const [at, doing] of [...acts, { does: 'look' as const, back: 0 }].entries()) {
        if (doing.does !== 'look') {
          await doIt(cast, doing, entries, at);
          continue;
        }
        const on = addDays(today, -doing.back);
        const anew = await householdFacts(cast.db, quinceYard, on);
        const goneOn = await householdFacts(cast.db, quinceYard, on, lookedOn === on ? before : undefined);
        expect(plain(goneOn)).toBe(plain(anew));
        if (goneOn.events.some((event) => before?.events.includes(event))) readOn += 1;
        before = goneOn;
        lookedOn = on;
        expect(plain(await yearPicture(cast.db, quinceYard, on, reference))).toBe(
          plain(await yearPicture(cast.db.withoutPlugins(), quinceYard, on, reference)),
        );
      }
      await cast.db.destroy();
    }),
    { numRuns: 40 },
  );
  // Most looks do go on from the last one.
  expect(readOn).toBeGreaterThan(40);
});

test('where a household was put in its place again, its book is read from the beginning', async () => {
  const cast = await jamAndBeans();
  worked(await take(cast.writer(), oneOf(plumJam)));
  const before = await householdFacts(cast.db, quinceYard, today);
  const text = await householdText(cast.db, quinceYard);
  // As many events under the same numbers, and one of them says otherwise.
  const otherwise = text.replace(/"kind": ?"taken"/, '"kind":"discarded"');

  worked(await restoreHousehold(cast.writer(), otherwise));

  const now = await householdFacts(cast.db, quinceYard, today, before);
  expect(otherwise).not.toBe(text);
  expect(before.events.map(({ kind }) => kind)).toContain('taken');
  expect(now.events.map(({ seq }) => seq)).toEqual(before.events.map(({ seq }) => seq));
  expect(plain(now)).toBe(plain(await householdFacts(cast.db, quinceYard, today)));
  expect(now.events.map(({ kind }) => kind)).toContain('discarded');
  await cast.db.destroy();
});
