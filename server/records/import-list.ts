import { randomUUID } from 'node:crypto';
import type { HouseholdId } from '../../shared/ids.ts';
import { found, type Outcome, refused } from '../../shared/problems.ts';
import { addDays } from '../../shared/week.ts';
import type { Database } from '../database/database.ts';
import {
  checkList,
  type DateOrder,
  type ListKind,
  type ListRow,
  linesInWords,
  type Mapping,
  parseList,
} from '../files/list-import.ts';
import { type NewListItem, waysOfKeeping } from '../files/new-list-items.ts';
import { type Item, itemById, items } from '../queries/items.ts';
import { places } from '../queries/kitchen.ts';
import { groupedBy } from '../queries/row.ts';
import { addItem } from './items.ts';
import { addJarEvents, newEntryId } from './jar-events.ts';
import { addLot, addLots } from './new-lot.ts';
import { problem, type Recorder, type Recording, record, refuse } from './record.ts';

export interface ImportDraft {
  readonly id: string;
  readonly kind: ListKind;
  readonly fileName: string;
  readonly content: string;
}

/** Lists that were sent and never brought in are forgotten after a day. */
const draftKeptMs = 86_400_000;

/** Keeps a list until its columns are named and it is brought in or forgotten. */
export async function keepDraft(
  db: Database,
  householdId: HouseholdId,
  draft: Omit<ImportDraft, 'id'>,
  at: number,
): Promise<string> {
  const id = randomUUID();
  await db.transaction().execute(async (trx) => {
    await trx
      .deleteFrom('import_draft')
      .where('household_id', '=', householdId)
      .where('received_at', '<', at - draftKeptMs)
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

/** Brings a list in, all of it or nothing: one row that does not fit refuses the whole list. */
export const importList = (
  recording: Recording,
  request: {
    readonly draftId: string;
    readonly mapping: Mapping;
    readonly dates: DateOrder;
    /** What becomes of the names that are not known; each is added, or is another name of an item. */
    readonly newItems: readonly NewListItem[];
  },
): Promise<Outcome<ImportAnswer>> =>
  record(recording, 'import list', request, async (recorder) => {
    const { trx, householdId, today } = recorder;
    const draft = await importDraft(trx, householdId, request.draftId);
    if (draft === null)
      return refuse(
        'list-unknown',
        'file',
        'Expected a list that was sent; found none. Send the file again.',
      );
    const parsed = parseList(draft.content);
    if (!parsed.ok) return parsed;
    const calledAlso = await addNewItems(recorder, request.newItems);
    if (!calledAlso.ok) return calledAlso;
    const { rows, problems, unknown } = checkList(parsed.value, {
      ...request,
      kind: draft.kind,
      items: await items(trx, householdId),
      calledAlso: calledAlso.value,
      places: await places(trx, householdId),
      today,
    });
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
            `Expected an item this household keeps; found “${name.slice(0, 40)}” on line ${linesInWords(lines)}. Say below what it is, or write its name as the shelf has it.`,
          ),
        ),
      );
    if (draft.kind === 'stock') await bringStock(recorder, rows);
    else await bringPastUse(recorder, rows);
    await trx
      .deleteFrom('import_draft')
      .where('household_id', '=', householdId)
      .where('id', '=', draft.id)
      .execute();
    return found({ rows: rows.length, items: new Set(rows.map(({ item }) => item.id)).size });
  });

/** Adds what the list names and nobody keeps yet; answers the items by the list's names. */
async function addNewItems(
  recorder: Recorder,
  said: readonly NewListItem[],
): Promise<Outcome<ReadonlyMap<string, Item>>> {
  const { trx, householdId } = recorder;
  const calledAlso = new Map<string, Item>();
  for (const one of said) {
    const itemId = one.sameAs === null ? await addOne(recorder, one) : found(one.sameAs);
    if (!itemId.ok) return itemId;
    const item = await itemById(trx, householdId, itemId.value);
    if (item === null)
      return refuse('item-unknown', 'newItems', `Expected an item to stand for ${one.name}; found none.`);
    calledAlso.set(one.name.toLowerCase(), item);
  }
  return found(calledAlso);
}

/** How sure a household is taken to want to be of what it brings in; as a beginner of the first hour. */
const firstChanceWanted = 0.8;

function addOne(
  recorder: Recorder,
  one: Extract<NewListItem, { sameAs: null }>,
): Promise<Outcome<Item['id']>> {
  const { kind, keeping, unit } = waysOfKeeping[one.way];
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
    rows.flatMap((row, at) => {
      const lot = lots[at];
      return lot === undefined
        ? []
        : [
            {
              entryId: newEntryId(),
              lotId: lot.id,
              kind: arrivalOf(row),
              units: row.units,
              occurredOn: row.on,
            },
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
        reason: 'past use, brought in from a list',
        occurredOn: first.on,
      },
      ...inOrder.map((row) => ({
        entryId: newEntryId(),
        lotId: lot.id,
        kind: 'taken' as const,
        units: -row.units,
        trainsUse: true,
        reason: 'past use, brought in from a list',
        occurredOn: row.on,
      })),
    ]);
  }
}
