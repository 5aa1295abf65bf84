import { randomUUID } from 'node:crypto';
import { groupedBy } from '../../shared/grouped-by.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import { found, type Outcome, refused } from '../../shared/problems.ts';
import { addDays } from '../../shared/week.ts';
import type { Item } from '../../src/household/item.ts';
import { eatenBeforeReason, pastUseReason } from '../../src/household/paper-record.ts';
import { nameRefusals } from '../../src/preserving/foods/food-names.ts';
import type { Database } from '../database/database.ts';
import { householdById } from '../queries/household/household.ts';
import { itemById, itemsOf } from '../queries/household/items.ts';
import { placesOf } from '../queries/household/kitchen.ts';
import { addItem } from '../records/household/items.ts';
import { problem, type Recorder, type Recording, record, refuse } from '../records/record.ts';
import { addJarEvents, type NewJarEvent, newEntryId } from '../records/shelf/jar-events.ts';
import { addLot, addLots } from '../records/shelf/new-lot.ts';
import type { DateOrder } from './list-cells.ts';
import { type ListKind, type ListRow, linesInWords, type Mapping } from './list-import.ts';
import { calledAlsoIn, itemToBe, type NewListItem, waysOfKeeping } from './new-list-items.ts';
import { type ReadingProcess, readingProcess } from './reading-process.ts';

export interface ImportDraft {
  readonly id: string;
  readonly kind: ListKind;
  readonly fileName: string;
  readonly content: string;
}

/** Lists that were sent and never brought in are forgotten after a day, or when so many newer ones were sent. */
const draftKeptMs = 86_400_000;
const mostDrafts = 5;

/** Keeps a list until its columns are named and it is brought in or forgotten. */
export async function keepDraft(
  db: Database,
  householdId: HouseholdId,
  draft: Omit<ImportDraft, 'id'>,
  at: number,
): Promise<string> {
  const id = randomUUID();
  await db.transaction().execute(async (trx) => {
    const newest = await trx
      .selectFrom('import_draft')
      .select('id')
      .where('household_id', '=', householdId)
      .orderBy('received_at', 'desc')
      .limit(mostDrafts - 1)
      .execute();
    await trx
      .deleteFrom('import_draft')
      .where('household_id', '=', householdId)
      .where((row) =>
        row.or([
          row('received_at', '<', at - draftKeptMs),
          row(
            'id',
            'not in',
            newest.map((one) => one.id),
          ),
        ]),
      )
      .execute();
    await trx
      .insertInto('import_draft')
      .values({
        household_id: householdId,
        id,
        kind: draft.kind,
        file_name: draft.fileName,
        content: draft.content,
        received_at: at,
      })
      .execute();
  });
  return id;
}

export async function importDraft(
  db: Database,
  householdId: HouseholdId,
  id: string,
): Promise<ImportDraft | null> {
  const row = await db
    .selectFrom('import_draft')
    .selectAll()
    .where('household_id', '=', householdId)
    .where('id', '=', id)
    .executeTakeFirst();
  return row ? { id: row.id, kind: row.kind, fileName: row.file_name, content: row.content } : null;
}

export interface ImportAnswer {
  readonly rows: number;
  readonly items: number;
}

/**
 * Brings a list in, all of it or nothing: one row that does not fit refuses the whole list. The list is read in a process of
 * its own before anything is written; `readAs` holds it against the items there are and those that are to be added.
 */
export async function importList(
  recording: Recording,
  request: {
    readonly draftId: string;
    readonly mapping: Mapping;
    readonly dates: DateOrder;
    /** What becomes of the names that are not known; each is added, or is another name of an item. */
    readonly newItems: readonly NewListItem[];
  },
  reader: ReadingProcess = readingProcess(),
): Promise<Outcome<ImportAnswer>> {
  const { db, householdId, today } = recording;
  const draft = await importDraft(db, householdId, request.draftId);
  const items = await itemsOf(db, householdId);
  const read =
    draft === null
      ? null
      : await reader.read('list', {
          content: draft.content,
          question: {
            kind: draft.kind,
            mapping: request.mapping,
            dates: request.dates,
            items,
            calledAlso: calledAlsoIn(request.newItems, items),
            places: await placesOf(db, householdId),
            today,
            weighs: (await householdById(db, householdId)).units === 'metric' ? 'kg' : 'lb',
          },
        });
  return record(recording, 'import list', request, async (recorder) => {
    const { trx } = recorder;
    // Looked up again: it may have been brought in while it was read.
    if (draft === null || read === null || (await importDraft(trx, householdId, draft.id)) === null)
      return refuse('list-unknown', 'file', 'That list is no longer here. Send the file again.');
    if (!read.ok) return read;
    const checked = read.value.checked;
    if (checked === null) throw new Error('importList: expected a list that was checked');
    const { problems, unknown } = checked;
    if (problems.length > 0)
      return refused(
        ...problems.map(({ line, column, message }) =>
          problem('row-unfit', `line ${line}, ${column}`, message),
        ),
      );
    if (unknown.length > 0)
      return refused(
        ...unknown.map(({ name, lines }) =>
          problem(
            'item-unknown',
            'newItems',
            `You do not keep anything called “${name.slice(0, 40)}” (line ${linesInWords(lines)}). Say below what it is, or write its name as the shelf has it.`,
          ),
        ),
      );
    const added = await addNewItems(recorder, request.newItems);
    if (!added.ok) return added;
    const now = new Map([
      ...(await itemsOf(trx, householdId)).map((item) => [item.id, item] as const),
      ...added.value,
    ]);
    const rows: ListRow[] = [];
    for (const row of checked.rows) {
      const item = now.get(row.item.id);
      if (item === undefined)
        return refuse(
          'item-unknown',
          'newItems',
          `“${row.item.name}” was taken out while the list was read. Look at the list again.`,
        );
      rows.push({ ...row, item });
    }
    if (draft.kind === 'stock') await bringStock(recorder, rows);
    else await bringPastUse(recorder, rows);
    await trx
      .deleteFrom('import_draft')
      .where('household_id', '=', householdId)
      .where('id', '=', draft.id)
      .execute();
    return found({ rows: rows.length, items: new Set(rows.map(({ item }) => item.id)).size });
  });
}

/** Adds what the list names and nobody keeps yet; answers the items by the ids they had before they were there. */
async function addNewItems(
  recorder: Recorder,
  said: readonly NewListItem[],
): Promise<Outcome<ReadonlyMap<Item['id'], Item>>> {
  const { trx, householdId } = recorder;
  const added = new Map<Item['id'], Item>();
  for (const one of said) {
    if (one.sameAs !== null) continue;
    const itemId = await addOne(recorder, one);
    if (!itemId.ok) return itemId;
    const item = await itemById(trx, householdId, itemId.value);
    if (item === null) return refuse('item-unknown', 'newItems', `Choose an item for ${one.name}.`);
    added.set(itemToBe(one).id, item);
  }
  return found(added);
}

/** How sure a household is taken to want to be of what it brings in; as a beginner of the first hour. */
const firstChanceWanted = 0.8;

function addOne(
  recorder: Recorder,
  one: Extract<NewListItem, { sameAs: null }>,
): Promise<Outcome<Item['id']>> {
  const { kind, keeping, unit } = waysOfKeeping[one.way];
  const misnamed = keeping === 'canned' ? nameRefusals(one.name, null) : [];
  if (misnamed.length > 0)
    return Promise.resolve(
      refused(...misnamed.map(({ code, message }) => problem(code, 'newItems', `${one.name}: ${message}`))),
    );
  return addItem(recorder, {
    name: one.name,
    kind,
    keeping,
    family: one.family,
    unit,
    usual_jar: one.jarKind,
    shelf_life_key: null,
    best_quality_days: one.bestQualityDays,
    keep_cold_days: null,
    chance_wanted: firstChanceWanted,
  });
}

const originOf = ({ item }: ListRow) => (item.kind === 'staple' ? ('bought' as const) : ('put-up' as const));
const arrivalOf = ({ item }: ListRow) => (item.kind === 'staple' ? ('bought' as const) : ('put up' as const));

async function bringStock(recorder: Recorder, rows: readonly ListRow[]): Promise<void> {
  const lots = await addLots(
    recorder,
    rows.map((row) => ({
      item: row.item,
      jarKind: row.jarKind ?? row.item.usualJar,
      origin: originOf(row),
      madeOn: row.on,
      readyFrom: row.on,
      bestQualityUntil: row.best ?? addDays(row.on, row.item.bestQualityDays),
      placeId: row.placeId,
      recipeId: null,
      costCents: null,
    })),
  );
  await addJarEvents(
    recorder,
    rows.flatMap((row, at): NewJarEvent[] => {
      const lot = lots[at];
      const entryId = newEntryId();
      return lot === undefined
        ? []
        : [
            {
              entryId,
              lotId: lot.id,
              kind: arrivalOf(row),
              units: row.filled ?? row.units,
              occurredOn: row.on,
            },
            ...(row.filled === null || row.filled <= row.units
              ? []
              : [
                  {
                    entryId,
                    lotId: lot.id,
                    kind: 'counted' as const,
                    units: row.units - row.filled,
                    trainsUse: true,
                    reason: eatenBeforeReason,
                    occurredOn: recorder.today,
                  },
                ]),
          ];
    }),
  );
}

/** What was eaten before the book began comes from one lot an item, which it empties: the shelf stays as it is. */
async function bringPastUse(recorder: Recorder, rows: readonly ListRow[]): Promise<void> {
  for (const ofItem of groupedBy(rows, ({ item }) => item.id).values()) {
    const inOrder = ofItem.toSorted((one, other) => (one.on < other.on ? -1 : one.on > other.on ? 1 : 0));
    const [first] = inOrder;
    if (first === undefined) continue;
    const lot = await addLot(recorder, {
      item: first.item,
      jarKind: first.item.usualJar,
      origin: originOf(first),
      madeOn: first.on,
      readyFrom: first.on,
      bestQualityUntil: addDays(first.on, first.item.bestQualityDays),
      placeId: null,
      recipeId: null,
      costCents: null,
    });
    await addJarEvents(recorder, [
      {
        entryId: newEntryId(),
        lotId: lot.id,
        kind: arrivalOf(first),
        units: inOrder.reduce((sum, { units }) => sum + units, 0),
        reason: pastUseReason,
        occurredOn: first.on,
      },
      ...inOrder.map((row) => ({
        entryId: newEntryId(),
        lotId: lot.id,
        kind: 'taken' as const,
        units: -row.units,
        trainsUse: true,
        reason: pastUseReason,
        occurredOn: row.on,
      })),
    ]);
  }
}
