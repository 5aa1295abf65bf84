import { counted } from '../../../shared/counting.ts';
import { dateWords } from '../../../shared/date-words.ts';
import type { LotId, PlaceId, RecipeId } from '../../../shared/ids.ts';
import type { JarKind } from '../../../shared/jar.ts';
import { found, type Outcome } from '../../../shared/problems.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import { latestBestQuality } from '../../../src/shelf/best-quality.ts';
import { pageNames } from '../../../views/words/page-names.ts';
import { placesOf } from '../../queries/household/kitchen.ts';
import { type Reader, type Recorder, refuse } from '../record.ts';

export interface NewLot {
  readonly item: Item;
  readonly jarKind: JarKind | null;
  readonly origin: 'put-up' | 'bought' | 'received';
  readonly madeOn: CalendarDate;
  readonly readyFrom: CalendarDate;
  readonly bestQualityUntil: CalendarDate;
  readonly placeId: PlaceId | null;
  readonly recipeId: RecipeId | null;
  readonly costCents: number | null;
}

/** Adds a lot with the next free batch code of its day: 260812-A, then 260812-B. */
export async function addLot(recorder: Recorder, lot: NewLot): Promise<AddedLot> {
  const [added] = await addLots(recorder, [lot]);
  if (added === undefined) throw new Error('addLot: expected one lot, got none');
  return added;
}

export interface AddedLot {
  readonly id: LotId;
  readonly batchCode: string;
}

/** Rows of one insert: SQLite takes 32,766 values at once, a lot has 15. */
const rowsAtOnce = 100;

/** Adds many lots, each with the next free batch code of its item and day, in the order given. */
export async function addLots(recorder: Recorder, lots: readonly NewLot[]): Promise<readonly AddedLot[]> {
  const { trx, householdId } = recorder;
  const made = new Map<string, number>();
  const added: AddedLot[] = [];
  const rows = [];
  for (const lot of lots) {
    const ofDay = `${lot.item.id} ${lot.madeOn}`;
    const before = made.get(ofDay) ?? (await lotsMadeOn(recorder, lot));
    made.set(ofDay, before + 1);
    const batchCode = `${lot.madeOn.slice(2).replaceAll('-', '')}-${letters(before)}`;
    const id = `${lot.item.id.slice(0, 48)}-${batchCode.toLowerCase()}` as LotId;
    added.push({ id, batchCode });
    rows.push({
      household_id: householdId,
      id,
      item_id: lot.item.id,
      batch_code: batchCode,
      jar_kind: lot.jarKind,
      origin: lot.origin,
      made_on: lot.madeOn,
      ready_from: lot.readyFrom,
      best_quality_until: lot.bestQualityUntil,
      place_id: lot.placeId,
      recipe_id: lot.recipeId,
      cost_cents: lot.costCents,
      set_aside_at: null,
      set_aside_reason: null,
      recorded_at: recorder.at,
    });
  }
  for (let at = 0; at < rows.length; at += rowsAtOnce)
    await trx
      .insertInto('lot')
      .values(rows.slice(at, at + rowsAtOnce))
      .execute();
  return added;
}

async function lotsMadeOn({ trx, householdId }: Recorder, { item, madeOn }: NewLot): Promise<number> {
  const { made } = await trx
    .selectFrom('lot')
    .select((row) => row.fn.countAll<number>().as('made'))
    .where('household_id', '=', householdId)
    .where('item_id', '=', item.id)
    .where('made_on', '=', madeOn)
    .executeTakeFirstOrThrow();
  return made;
}

/** A, B … Z, AA, AB … */
function letters(number: number): string {
  const letter = String.fromCharCode(65 + (number % 26));
  return number < 26 ? letter : letters(Math.floor(number / 26) - 1) + letter;
}

/**
 * Last day of best quality: the published life after the day it was made, or an earlier day that was said; never a later one, but
 * for what is bought, whose maker prints it.
 */
export function bestQualityDay(
  item: Item,
  madeOn: CalendarDate,
  said: CalendarDate | null,
): Outcome<CalendarDate> {
  const published = addDays(madeOn, item.bestQualityDays);
  if (said === null) return found(published);
  const latest = latestBestQuality(item, madeOn);
  if (said >= madeOn && said <= latest) return found(said);
  if (item.kind === 'staple')
    return refuse(
      'best-quality-out-of-range',
      'bestQualityUntil',
      `${dateWords(said)} is not between ${dateWords(madeOn)}, when ${item.name} was bought, and ${dateWords(latest)}. Write the date that is printed on it, or leave it blank to take ${dateWords(published)}.`,
    );
  return refuse(
    'best-quality-out-of-range',
    'bestQualityUntil',
    `${item.name} is at its best from ${dateWords(madeOn)} to ${dateWords(published)}, ${counted(item.bestQualityDays, 'day')} after it was made; ${dateWords(said)} is outside. Leave it blank to take ${dateWords(published)}.`,
  );
}

/** What is kept in jars says which jar; everything else says none. */
export function jarKindOf(item: Item, said: JarKind | null): Outcome<JarKind | null> {
  if (item.unit === 'jar') return found(said ?? item.usualJar);
  return said === null
    ? found(null)
    : refuse(
        'jar-unexpected',
        'jarKind',
        `${item.name} is kept by the ${item.unit}, not in jars. Leave the jar empty.`,
      );
}

export async function knownPlace(reader: Reader, placeId: PlaceId | null): Promise<Outcome<PlaceId | null>> {
  if (placeId === null) return found(null);
  const all = await placesOf(reader.trx, reader.householdId);
  return all.some((place) => place.id === placeId)
    ? found(placeId)
    : refuse(
        'place-unknown',
        'placeId',
        all.length === 0
          ? `Leave the place blank: you have none yet. Places are added under ${pageNames.kitchen}.`
          : `Choose a place (${all.map((place) => place.name).join(', ')}), or leave it blank.`,
      );
}
