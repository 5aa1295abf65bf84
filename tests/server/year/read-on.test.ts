import fc from 'fast-check';
import { expect, test } from 'vitest';
import { householdText, restoreHousehold } from '../../../server/files/household-file.ts';
import { countShelf } from '../../../server/records/shelf/count-shelf.ts';
import { moveLots } from '../../../server/records/shelf/move-lots.ts';
import { take } from '../../../server/records/shelf/take.ts';
import { undo } from '../../../server/records/shelf/undo.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { householdFacts } from '../../../server/year/household-facts.ts';
import { yearPicture } from '../../../server/year/year-picture.ts';
import type { PlaceId } from '../../../shared/ids.ts';
import { oneOf } from '../../../shared/schemas/shelf/take.ts';
import { addDays } from '../../../shared/week.ts';
import { factsChanged } from '../../builders/facts-changed.ts';
import { worked } from '../../builders/outcomes.ts';
import {
  type Cast,
  greenBeans,
  jamOfJanuary,
  plumJam,
  quinceYard,
  quinceYardHousehold,
  shelve,
  today,
} from '../../builders/quince-yard.ts';

// The ledger is read on from where it was read last, and what hangs on it goes on from what was remembered. Whatever is done, in whatever
// order, and however much of it between two looks: it says what is said by whoever reads all of it from the beginning.

type Act =
  | { readonly does: 'take'; readonly beans: boolean; readonly units: number; readonly back: number }
  | { readonly does: 'count'; readonly units: number }
  | { readonly does: 'undo'; readonly which: number }
  | { readonly does: 'carry'; readonly place: string }
  | { readonly does: 'put up'; readonly units: number; readonly back: number }
  | { readonly does: 'call'; readonly name: string }
  | { readonly does: 'mend the jar'; readonly jar: string }
  | { readonly does: 'look'; readonly back: number };

const back = fc.integer({ min: 0, max: 20 });
const act: fc.Arbitrary<Act> = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.record({
      does: fc.constant('take' as const),
      beans: fc.boolean(),
      units: fc.integer({ min: 1, max: 3 }),
      back,
    }),
  },
  fc.record({ does: fc.constant('count' as const), units: fc.integer({ min: 0, max: 12 }) }),
  { weight: 2, arbitrary: fc.record({ does: fc.constant('undo' as const), which: fc.nat({ max: 9 }) }) },
  fc.record({ does: fc.constant('carry' as const), place: fc.constantFrom('cellar', 'pantry') }),
  fc.record({ does: fc.constant('put up' as const), units: fc.integer({ min: 1, max: 9 }), back }),
  fc.record({ does: fc.constant('call' as const), name: fc.constantFrom('Plum jam', 'Damson jam') }),
  fc.record({
    does: fc.constant('mend the jar' as const),
    jar: fc.constantFrom('pint/regular', 'half-pint/regular'),
  }),
  {
    weight: 4,
    arbitrary: fc.record({ does: fc.constant('look' as const), back: fc.constantFrom(0, 0, 0, 3) }),
  },
);

async function shelf(): Promise<Cast> {
  const cast = await quinceYardHousehold();
  await shelve(cast.db, jamOfJanuary);
  await shelve(cast.db, {
    id: 'beans',
    itemId: greenBeans,
    units: 9,
    madeOn: '2026-07-01',
    bestQualityUntil: '2027-07-01',
    jarKind: 'pint/regular',
  });
  return cast;
}

async function doIt(cast: Cast, doing: Exclude<Act, { does: 'look' }>, entries: string[], at: number) {
  const { db } = cast;
  switch (doing.does) {
    case 'take': {
      const answer = await take(cast.writer(), {
        ...oneOf(doing.beans ? greenBeans : plumJam),
        units: doing.units,
        late: true,
        occurredOn: addDays(today, -doing.back),
      });
      if (answer.ok && answer.value.entryId !== null) entries.push(answer.value.entryId);
      return;
    }
    case 'count':
      await countShelf(cast.writer(), {
        countedOn: null,
        counts: [{ itemId: plumJam, units: doing.units, explainedAs: null }],
      });
      return;
    case 'undo':
      if (entries.length > 0) await undo(cast.writer(), entries[doing.which % entries.length] ?? '');
      return;
    case 'carry':
      await moveLots(cast.writer(), {
        lotIds: ['january', 'beans'],
        placeId: doing.place as PlaceId,
      } as never);
      return;
    case 'put up':
      await shelve(db, {
        id: `batch-${at}`,
        itemId: plumJam,
        units: doing.units,
        madeOn: addDays(today, -doing.back),
        bestQualityUntil: '2027-08-01',
      });
      break;
    case 'call':
      await db.updateTable('item').set({ name: doing.name }).where('id', '=', plumJam).execute();
      break;
    case 'mend the jar':
      await db.updateTable('lot').set({ jar_kind: doing.jar }).where('id', '=', 'january').execute();
      break;
  }
  await factsChanged(db);
}

const plain = (said: unknown): string =>
  JSON.stringify(said, (_name, value: unknown) =>
    value instanceof Map || value instanceof Set ? [...value] : value,
  );

test('a picture that goes on from the last one says what one made from nothing says, whatever was done', async () => {
  const reference = loadReferenceTables();
  let readOn = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(act, { minLength: 3, maxLength: 14 }), async (acts) => {
      const cast = await shelf();
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
  const cast = await shelf();
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
