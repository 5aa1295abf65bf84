import fc from 'fast-check';
import { openJarsOf } from '../../server/queries/shelf/open-jars.ts';
import { countShelf } from '../../server/records/shelf/count-shelf.ts';
import { finishJar } from '../../server/records/shelf/finish-jar.ts';
import { moveLots } from '../../server/records/shelf/move-lots.ts';
import { take } from '../../server/records/shelf/take.ts';
import { undo } from '../../server/records/shelf/undo.ts';
import type { PlaceId } from '../../shared/ids.ts';
import { oneOf } from '../../shared/schemas/shelf/take.ts';
import { addDays } from '../../shared/week.ts';
import { factsChanged } from './facts-changed.ts';
import {
  type Cast,
  greenBeans,
  jamOfJanuary,
  plumJam,
  quinceYard,
  quinceYardHousehold,
  shelve,
  today,
} from './quince-yard.ts';

export type Act =
  | { readonly does: 'take'; readonly beans: boolean; readonly units: number; readonly back: number }
  | { readonly does: 'count'; readonly units: number }
  | { readonly does: 'undo'; readonly which: number }
  | { readonly does: 'finish'; readonly which: number }
  | { readonly does: 'carry'; readonly place: string }
  | { readonly does: 'put up'; readonly units: number; readonly back: number }
  | { readonly does: 'call'; readonly name: string }
  | { readonly does: 'mend the jar'; readonly jar: string }
  | { readonly does: 'look'; readonly back: number };

const back = fc.integer({ min: 0, max: 20 });
/** Something done to the jars of Quince Yard, or a look at them. */
export const act: fc.Arbitrary<Act> = fc.oneof(
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
  fc.record({ does: fc.constant('finish' as const), which: fc.nat({ max: 3 }) }),
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

/** Quince Yard with jam and beans on its shelf. */
export async function jamAndBeans(): Promise<Cast> {
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

/** Does it; `entries` are those that were written down, for an undo, and `at` tells one batch from another. */
export async function doIt(
  cast: Cast,
  doing: Exclude<Act, { does: 'look' }>,
  entries: string[],
  at: number,
): Promise<void> {
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
    case 'finish': {
      const open = await openJarsOf(db, quinceYard, today);
      const jar = open[doing.which % Math.max(1, open.length)];
      if (jar === undefined) return;
      const { lotId, openedOn } = jar;
      const answer = await finishJar(cast.writer(), { lotId, openedOn, jars: 1 });
      if (answer.ok) entries.push(answer.value.entryId);
      return;
    }
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
