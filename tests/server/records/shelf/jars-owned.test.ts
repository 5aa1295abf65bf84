import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jarStockOf, lidStockOf } from '../../../../server/queries/household/kitchen.ts';
import { changeJars, setJarHolding } from '../../../../server/records/household/jars.ts';
import { setLids } from '../../../../server/records/household/kitchen.ts';
import { countShelf } from '../../../../server/records/shelf/count-shelf.ts';
import { putUp } from '../../../../server/records/shelf/put-up.ts';
import { take } from '../../../../server/records/shelf/take.ts';
import { undo } from '../../../../server/records/shelf/undo.ts';
import type { JarKind } from '../../../../shared/jar.ts';
import { asCents } from '../../../../shared/money.ts';
import { addDays, asDate } from '../../../../shared/week.ts';
import { worked } from '../../../builders/outcomes.ts';
import {
  type Cast,
  greenBeans,
  plumJam,
  quinceYard,
  quinceYardHousehold,
  today,
} from '../../../builders/quince-yard.ts';

const halfPint = 'half-pint/regular' as JarKind;
const pint = 'pint/regular' as JarKind;
const jarOf = { [plumJam]: halfPint, [greenBeans]: pint };
type Food = typeof plumJam;

const stockOf = async (cast: Cast, kind: JarKind) => {
  const stock = (await jarStockOf(cast.db, quinceYard)).find((one) => one.kind === kind);
  if (!stock) throw new Error(`expected a holding of ${kind}`);
  return stock;
};
const countEmpty = (cast: Cast, kind: JarKind, empty: number) =>
  setJarHolding(cast.writer(), { jarKind: kind, empty, price: asCents(1399), pack: 12 });
const put = (cast: Cast, itemId: Food, units: number, madeOn: string, left: number | null = null) =>
  putUp(cast.writer(), {
    itemId,
    recipeId: null,
    batches: null,
    madeOn: asDate(madeOn),
    readyFrom: null,
    bestQualityUntil: null,
    placeId: null,
    filled: [{ jarKind: null, units }],
    left,
    note: '',
    evidence: null,
  });
const goes = (
  cast: Cast,
  itemId: Food,
  kind: 'taken' | 'given away' | 'discarded',
  reason: string | null,
  units = 1,
) =>
  take(cast.writer(), {
    itemId,
    lotId: null,
    jarKind: null,
    units,
    kind,
    reason,
    occurredOn: null,
    late: false,
    forPromise: false,
    takenBy: null,
  });

describe('jars of a household', () => {
  it('brought in from last year stand full, take none of today’s jars or lids, and come back empty as they are eaten', async () => {
    const cast = await quinceYardHousehold();
    worked(await countEmpty(cast, halfPint, 20));
    worked(
      await setLids(cast.writer(), {
        mouth: 'regular',
        onHand: 300,
        box: 12,
        boxPrice: asCents(499),
      } as never),
    );

    worked(await put(cast, plumJam, 30, '2025-08-20'));
    expect(await stockOf(cast, halfPint)).toMatchObject({ owned: 50, full: 30, empty: 20, away: 0 });
    expect(await lidStockOf(cast.db, quinceYard)).toMatchObject([{ onHand: 300 }]);

    worked(await goes(cast, plumJam, 'taken', null, 4));
    expect(await stockOf(cast, halfPint)).toMatchObject({ owned: 50, full: 26, empty: 24, away: 0 });

    // A batch of today takes jars and lids that are there.
    worked(await put(cast, plumJam, 9, today));
    expect(await stockOf(cast, halfPint)).toMatchObject({ owned: 50, full: 35, empty: 15, away: 0 });
    expect(await lidStockOf(cast.db, quinceYard)).toMatchObject([{ onHand: 291 }]);
    await cast.db.destroy();
  });

  it('half eaten before they were written down: the eaten ones are among the empty ones that were counted', async () => {
    const cast = await quinceYardHousehold();
    worked(await countEmpty(cast, halfPint, 20));

    worked(await put(cast, plumJam, 30, '2025-08-20', 8));

    expect(await stockOf(cast, halfPint)).toMatchObject({ owned: 28, full: 8, empty: 20, away: 0 });
    await cast.db.destroy();
  });

  it('given away come back or do not, broken ones are gone, and undoing puts all of it back', async () => {
    const cast = await quinceYardHousehold();
    worked(await countEmpty(cast, halfPint, 5));
    worked(await put(cast, plumJam, 12, '2025-08-20'));
    const before = await stockOf(cast, halfPint);

    const lent = worked(await goes(cast, plumJam, 'given away', 'jar-comes-back', 3));
    expect(await stockOf(cast, halfPint)).toMatchObject({ owned: 17, full: 9, empty: 5, away: 3 });
    const broke = worked(await goes(cast, plumJam, 'discarded', 'broken', 2));
    expect(await stockOf(cast, halfPint)).toMatchObject({ owned: 15, full: 7, empty: 5, away: 3 });
    const given = worked(await goes(cast, plumJam, 'given away', null, 1));
    expect(await stockOf(cast, halfPint)).toMatchObject({ owned: 14, full: 6, empty: 5, away: 3 });
    for (const { entryId } of [lent, broke, given]) worked(await undo(cast.writer(), entryId ?? ''));
    expect(await stockOf(cast, halfPint)).toEqual(before);

    worked(await goes(cast, plumJam, 'given away', 'jar-comes-back', 3));
    worked(await changeJars(cast.writer(), { jarKind: halfPint, change: 'came-back', jars: 2 }));
    expect(await stockOf(cast, halfPint)).toMatchObject({ owned: 17, full: 9, empty: 7, away: 1 });
    expect((await changeJars(cast.writer(), { jarKind: halfPint, change: 'came-back', jars: 2 })).ok).toBe(
      false,
    );
    await cast.db.destroy();
  });

  it('are full, empty or away, whatever is done with them in whatever order', async () => {
    const food = fc.constantFrom<Food>(plumJam, greenBeans);
    const few = fc.integer({ min: 1, max: 6 });
    const act = fc.oneof(
      fc.record({ do: fc.constant('put' as const), food, jars: few, daysAgo: fc.constantFrom(0, 2, 300) }),
      fc.record({ do: fc.constant('eat' as const), food, jars: few }),
      fc.record({ do: fc.constant('lend' as const), food, jars: few }),
      fc.record({ do: fc.constant('give' as const), food, jars: few }),
      fc.record({ do: fc.constant('break' as const), food, jars: few }),
      fc.record({ do: fc.constant('count' as const), food, jars: fc.integer({ min: 0, max: 12 }) }),
      fc.record({ do: fc.constant('back' as const), food, jars: few }),
      fc.record({ do: fc.constant('buy' as const), food, jars: few }),
      fc.record({ do: fc.constant('drop' as const), food, jars: few }),
      fc.record({ do: fc.constant('undo' as const), food, jars: few }),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(act, { maxLength: 14 }), async (acts) => {
        const cast = await quinceYardHousehold();
        for (const kind of [halfPint, pint]) worked(await countEmpty(cast, kind, 8));
        // A cupboard of real jars, kept by hand beside the book; what the book refuses does not happen.
        const real = new Map([halfPint, pint].map((kind) => [kind, { full: 0, empty: 8, away: 0 }]));
        const done: { readonly entryId: string; readonly back: () => void }[] = [];
        for (const one of acts) {
          const jars = real.get(jarOf[one.food] as JarKind);
          if (!jars) continue;
          const kind = jarOf[one.food] as JarKind;
          const was = { ...jars };
          const undoable = (entryId: string | null, change: Partial<typeof jars>) => {
            const moved = { full: change.full ?? 0, empty: change.empty ?? 0, away: change.away ?? 0 };
            jars.full += moved.full;
            jars.empty += moved.empty;
            jars.away += moved.away;
            if (entryId !== null)
              done.push({
                entryId,
                back: () => {
                  jars.full -= moved.full;
                  // Jars that were filled since were others, that nobody had counted.
                  jars.empty = Math.max(0, jars.empty - moved.empty);
                  jars.away -= moved.away;
                },
              });
          };
          if (one.do === 'put') {
            const { entryId } = worked(await put(cast, one.food, one.jars, addDays(today, -one.daysAgo)));
            // Of what was put up before the empty jars were counted none was among them.
            undoable(entryId, {
              full: one.jars,
              empty: one.daysAgo > 0 ? 0 : -Math.min(one.jars, was.empty),
            });
          } else if (one.do === 'eat' || one.do === 'lend' || one.do === 'give' || one.do === 'break') {
            const outcome = await goes(
              cast,
              one.food,
              one.do === 'eat' ? 'taken' : one.do === 'break' ? 'discarded' : 'given away',
              { eat: null, lend: 'jar-comes-back', give: null, break: 'broken' }[one.do],
              Math.min(one.jars, Math.max(1, was.full)),
            );
            if (!outcome.ok) continue;
            const left = outcome.value.from.reduce((sum, { units }) => sum + units, 0);
            undoable(outcome.value.entryId, {
              full: -left,
              ...(one.do === 'eat' ? { empty: left } : {}),
              ...(one.do === 'lend' ? { away: left } : {}),
            });
          } else if (one.do === 'count') {
            const outcome = await countShelf(cast.writer(), {
              countedOn: today,
              counts: [{ itemId: one.food, units: one.jars, explainedAs: null }],
            });
            if (!outcome.ok) continue;
            const more = one.jars - was.full;
            undoable(outcome.value.items[0]?.entryId ?? null, {
              full: more,
              empty: more > 0 ? -Math.min(more, was.empty) : -more,
            });
          } else if (one.do === 'undo') {
            const last = done.pop();
            if (last !== undefined && (await undo(cast.writer(), last.entryId)).ok) last.back();
          } else {
            const change = ({ back: 'came-back', buy: 'bought', drop: 'broke' } as const)[one.do];
            if (!(await changeJars(cast.writer(), { jarKind: kind, change, jars: one.jars })).ok) continue;
            if (change === 'came-back') jars.away -= one.jars;
            jars.empty += change === 'broke' ? -one.jars : one.jars;
          }
        }
        for (const kind of [halfPint, pint]) {
          const { owned, full, empty, away } = await stockOf(cast, kind);
          expect({ full, empty, away }).toEqual(real.get(kind));
          expect(owned).toBe(full + empty + away);
        }
        await cast.db.destroy();
      }),
      { numRuns: 40, seed: 1216 },
    );
  });
});
