import { addDays } from '../../shared/week.ts';
import { entryId, noonUtc, type Scene } from './scene.ts';

/** Jars as they moved through the year, and lids. */
export async function writeJarsAndLids({ db, data, asOf, opensOn, book, own }: Scene): Promise<void> {
  const { household } = data;
  const kindOfLot = new Map(book.lots.map((lot) => [lot.id, lot.jarKind]));
  let seq = 0;
  for (const jar of household.jars) {
    const moves = book.jarMoves.filter((move) => move.jarKind === jar.kind);
    const emptyAtStart = jar.spare + mostEverMissing(moves.map((move) => move.jars));
    const emptyNow = emptyAtStart + moves.reduce((sum, move) => sum + move.jars, 0);
    const fullNow = book.events
      .filter((event) => kindOfLot.get(event.lotId) === jar.kind)
      .reduce((sum, event) => sum + event.units, 0);
    await db
      .insertInto('jar_holding')
      .values({
        ...own,
        jar_kind: jar.kind,
        owned: emptyNow + fullNow,
        price_cents: jar.packPriceCents,
        pack: jar.pack,
        return_share: jar.returnShare,
      })
      .execute();
    await db
      .insertInto('empty_jar_event')
      .values([
        {
          ...own,
          seq: ++seq,
          entry_id: `first-count-${jar.kind}`,
          jar_kind: jar.kind,
          kind: 'counted',
          jars: emptyAtStart,
          occurred_on: opensOn,
          recorded_at: noonUtc(opensOn),
        },
        ...moves.map((move) => ({
          ...own,
          seq: ++seq,
          entry_id: entryId(move.entry),
          jar_kind: jar.kind,
          kind: move.kind,
          jars: move.jars,
          occurred_on: move.on,
          recorded_at: noonUtc(move.on) + move.entry,
        })),
      ])
      .execute();
  }
  await db
    .insertInto('lid_price')
    .values(
      household.lids.map((lid) => ({
        ...own,
        mouth: lid.mouth,
        box: lid.box,
        box_price_cents: lid.boxPriceCents,
      })),
    )
    .execute();
  await db
    .insertInto('lid_box')
    .values(
      household.lids.map((lid) => ({
        ...own,
        id: `lids-${lid.mouth}`,
        mouth: lid.mouth,
        lids: lid.onHand,
        bought_on: addDays(asOf, -60),
      })),
    )
    .execute();
}

/** How many jars the moves ever lack when they begin from none. */
const mostEverMissing = (moves: readonly number[]): number => {
  let empty = 0;
  let lowest = 0;
  for (const jars of moves) {
    empty += jars;
    lowest = Math.min(lowest, empty);
  }
  return -lowest;
};
