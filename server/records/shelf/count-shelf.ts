import { randomUUID } from 'node:crypto';
import { dateWords } from '../../../shared/date-words.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { found, type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import type { CountExplanation, ShelfCount } from '../../../shared/schemas/shelf/shelf-count.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { LotOnShelf } from '../../../src/household/lot.ts';
import { issueFirstExpired } from '../../../src/shelf/first-expired.ts';
import { lotsOf } from '../../queries/shelf/shelf.ts';
import { knownItem, pastDay, unitsOf, wholeUnits } from '../canning/checks.ts';
import { problem, problemsIn, type Reader, type Recorder, type Recording, record } from '../record.ts';
import { addEmptyJarEvents, addJarEvents, emptyJars, newEntryId } from './jar-events.ts';

export interface CountedItem {
  readonly itemId: ItemId;
  readonly itemName: string;
  readonly bookUnits: number;
  readonly countedUnits: number;
  readonly explainedAs: CountExplanation;
  /** Undo names this; null when book and shelf agreed. */
  readonly entryId: string | null;
}

export interface CountAnswer {
  readonly countedOn: CalendarDate;
  readonly items: readonly CountedItem[];
}

/**
 * The shelf as it was counted. A shortfall is taken-but-not-said and trains the use, unless another explanation is given;
 * it is written off first-expired first. Either every item of the count is recorded or none.
 */
export const countShelf = (recording: Recording, request: ShelfCount): Promise<Outcome<CountAnswer>> =>
  record(recording, 'count shelf', request, (recorder) => countShelfWithin(recorder, request));

async function countShelfWithin(recorder: Recorder, request: ShelfCount): Promise<Outcome<CountAnswer>> {
  const day = pastDay(recorder, 'countedOn', request.countedOn);
  if (!day.ok) return refused(...day.problems, ...(await partsOfPieces(recorder, request)));
  const done: CountedItem[] = [];
  const problems: Problem[] = [];
  const seen = new Set<string>();
  for (const [at, line] of request.counts.entries()) {
    const outcome = seen.has(line.itemId)
      ? refused(twice(line.itemId))
      : await countItem(recorder, day.value, line);
    seen.add(line.itemId);
    if (outcome.ok) done.push(outcome.value);
    else
      problems.push(...outcome.problems.map((found) => ({ ...found, path: ['counts', at, ...found.path] })));
  }
  return problems.length > 0 ? refused(...problems) : found({ countedOn: day.value, items: done });
}

/** What is wrong with the counts whatever the day: parts of jars. */
async function partsOfPieces(reader: Reader, { counts }: ShelfCount): Promise<readonly Problem[]> {
  const problems: Problem[] = [];
  for (const [at, { itemId, units }] of counts.entries()) {
    const known = await knownItem(reader, itemId);
    const whole = known.ok ? wholeUnits(known.value, units) : known;
    problems.push(...problemsIn(whole).map((one) => ({ ...one, path: ['counts', at, ...one.path] })));
  }
  return problems;
}

const twice = (itemId: string): Problem =>
  problem('counted-twice', 'itemId', `The count has ${itemId} twice. Add the two numbers and send one line.`);

async function countItem(
  recorder: Recorder,
  on: CalendarDate,
  line: ShelfCount['counts'][number],
): Promise<Outcome<CountedItem>> {
  const known = await knownItem(recorder, line.itemId);
  if (!known.ok) return known;
  const item = known.value;
  const whole = wholeUnits(item, line.units);
  if (!whole.ok) return whole;
  // Lots that were empty by then are kept in view: a jar found again belongs to one of them.
  const inBook = await lotsOf(recorder.trx, recorder.householdId, { itemId: item.id, asOf: on, empty: true });
  const standing = inBook.filter((lot) => lot.setAside === null);
  const bookUnits = standing.reduce((total, lot) => total + lot.unitsLeft, 0);
  const difference = line.units - bookUnits;
  const explained = explanationOf(item, line.explainedAs, bookUnits, line.units);
  if (!explained.ok) return explained;
  const explainedAs = explained.value;

  let entryId: string | null = null;
  if (Math.abs(difference) > 1e-9) {
    const spread =
      difference < 0 ? await leaving(recorder, standing, -difference, on) : joining(standing, difference);
    if (spread === null) return refused(laterTaken(item, difference, on));
    if (spread.length === 0) return refused(noLot(item, difference));
    entryId = newEntryId();
    await writeDifference(recorder, entryId, on, explainedAs, spread);
  }
  await recorder.trx
    .insertInto('shelf_count')
    .values({
      household_id: recorder.householdId,
      id: randomUUID(),
      item_id: item.id,
      counted_on: on,
      book_units: bookUnits,
      counted_units: line.units,
      explained_as: explainedAs,
      recorded_at: recorder.at,
    })
    .execute();
  return found({
    itemId: item.id,
    itemName: item.name,
    bookUnits,
    countedUnits: line.units,
    explainedAs,
    entryId,
  });
}

function explanationOf(
  item: Item,
  said: CountExplanation | null,
  book: number,
  units: number,
): Outcome<CountExplanation> {
  const usual: CountExplanation = units > book ? 'found' : 'taken-unrecorded';
  if (said === null || said === 'miscount' || units === book) return found(said ?? usual);
  if (units > book !== (said === 'found')) {
    const [more, fits] =
      units > book ? ['more', 'found or miscount'] : ['fewer', 'taken, broken, given away or miscount'];
    return refused(
      problem(
        'explanation-contradicts',
        'explainedAs',
        `There are ${more} ${item.name} than the book has (${unitsOf(item, units)} against ${unitsOf(item, book)}), which “${said}” does not explain. Choose ${fits}.`,
      ),
    );
  }
  return found(said);
}

interface LotChange {
  readonly lot: LotOnShelf;
  readonly units: number;
}

/** Fewer than the book: first-expired first, never more than a lot still holds today. Null when that is not enough. */
async function leaving(
  recorder: Recorder,
  standing: readonly LotOnShelf[],
  units: number,
  on: CalendarDate,
): Promise<readonly LotChange[] | null> {
  const now = await lotsOf(recorder.trx, recorder.householdId, { empty: true });
  const leftNow = new Map(now.map((lot) => [lot.id, lot.unitsLeft]));
  const issue = issueFirstExpired(
    standing.map((lot) => ({
      lotId: lot.id,
      units: Math.min(lot.unitsLeft, leftNow.get(lot.id) ?? 0),
      readyFrom: lot.madeOn,
      bestQualityUntil: lot.bestQualityUntil,
    })),
    units,
    on,
  );
  if (issue.unmet > 0) return null;
  return issue.taken.flatMap(({ lotId, units: given }) => {
    const lot = standing.find((candidate) => candidate.id === lotId);
    return lot ? [{ lot, units: -given }] : [];
  });
}

/** More than the book: onto the lot that expires first among those still standing, so that it is eaten first. */
function joining(standing: readonly LotOnShelf[], units: number): readonly LotChange[] {
  const lot = standing.find((candidate) => candidate.unitsLeft > 0) ?? standing.at(-1);
  return lot ? [{ lot, units }] : [];
}

const laterTaken = (item: Item, difference: number, on: CalendarDate): Problem =>
  problem(
    'count-too-old',
    'units',
    `The count of ${dateWords(on)} leaves ${unitsOf(item, -difference)} of ${item.name} to write off, but later entries have already taken them. Count again today.`,
  );

const noLot = (item: Item, difference: number): Problem =>
  problem(
    'no-lot-to-join',
    'units',
    `Nothing of ${item.name} was ever put up or bought, so there cannot be ${unitsOf(item, difference)}. Write them down as put up, bought or received first.`,
  );

async function writeDifference(
  recorder: Recorder,
  entryId: string,
  on: CalendarDate,
  explainedAs: CountExplanation,
  spread: readonly LotChange[],
): Promise<void> {
  await addJarEvents(
    recorder,
    spread.map(({ lot, units }) => ({
      entryId,
      lotId: lot.id,
      kind: 'counted',
      units,
      trainsUse: explainedAs === 'taken-unrecorded',
      reason: explainedAs,
      occurredOn: on,
    })),
  );
  if (explainedAs !== 'taken-unrecorded' && explainedAs !== 'found') return;
  for (const { lot, units } of spread) {
    if (lot.jarKind === null || lot.origin === 'bought') continue;
    // A jar found again was taken for an empty one, as far as there are any.
    const jars = units < 0 ? -units : -Math.min(units, await emptyJars(recorder, lot.jarKind));
    if (jars !== 0)
      await addEmptyJarEvents(recorder, [
        { entryId, jarKind: lot.jarKind, kind: 'emptied', jars, occurredOn: on },
      ]);
  }
}
