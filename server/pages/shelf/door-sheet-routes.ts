import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import { readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { type ShelfCount, shelfCountForm } from '../../../shared/schemas/shelf/shelf-count.ts';
import { clearNumberFrom } from '../../../shared/typed-number.ts';
import type { ItemOnShelf } from '../../../src/household/lot.ts';
import { DoorSheetPage } from '../../../views/pages/shelf/door-sheet-page.tsx';
import { TalliesPage } from '../../../views/pages/shelf/tallies-page.tsx';
import type { Reading } from '../../../views/words/reading.ts';
import { shelfByItem } from '../../queries/shelf/shelf.ts';
import { problem, problemsIn } from '../../records/record.ts';
import { countShelf } from '../../records/shelf/count-shelf.ts';
import { figureOf, pieceWords } from '../../words/shelf-units.ts';
import { shelfOfRequest } from '../../year/book-of-year.ts';
import { yearOfRequest } from '../../year/year-of-request.ts';
import { answerForm, type SentBack, statesFrom } from '../shared/answer-form.ts';
import { recordingOf } from '../shared/posting.ts';
import { asCounted } from '../shared/produce/own-units.ts';
import { shelfPicture } from '../shared/shelf-picture.ts';
import { countedAs, piecesInBook, walkingOrder } from './present-count.ts';
import { presentDoorSheet } from './present-door-sheet.ts';

const sheet: FastifyPluginAsync = async (app) => {
  app.get('/shelf/sheet', async (request, reply) => {
    const { household, today, reading } = request;
    const [{ shelf, promisedByItem }, picture] = await Promise.all([
      shelfPicture(request),
      yearOfRequest(request),
    ]);
    return reply.page(DoorSheetPage, {
      frame: await reply.frame(),
      ...presentDoorSheet(shelf, picture, { today, reading, promisedByItem, householdName: household.name }),
    });
  });

  app.get('/shelf/tallies', (request, reply) => sendTallies(request, reply, null));

  app.post('/shelf/tallies', async (request, reply) => {
    const values = typedValues(request.body);
    const shelf = await shelfByItem(app.db, request.household.id);
    const asked = readTallies(values, shelf, request.reading);
    const outcome = asked.ok ? await countShelf(recordingOf(request), asked.value) : asked;
    const counted = asked.ok ? asked.value.counts.map(({ itemId }) => itemId) : countedIn(values, shelf);
    const placed = outcome.ok ? outcome : refused(...outcome.problems.map((one) => besideItem(one, counted)));
    return answerForm(request, reply, placed, {
      formId: 'tallies',
      done: '/shelf/count',
      again: (sentBack) => sendTallies(request, reply, sentBack),
    });
  });
};

export default sheet;

const countedIn = (values: Readonly<Record<string, string>>, shelf: readonly ItemOnShelf[]): string[] =>
  shelf.map(({ item }) => item.id as string).filter((id) => (values[`units-${id}`] ?? '').trim() !== '');

/** Ticks are units that left: what stands there is the book less what was ticked. */
function readTallies(
  values: Readonly<Record<string, string>>,
  shelf: readonly ItemOnShelf[],
  reading: Reading,
): Outcome<ShelfCount> {
  const ids = countedIn(values, shelf);
  const tooMany: Problem[] = [];
  const counts = ids.map((itemId, place) => {
    const typed = values[`units-${itemId}`] ?? '';
    const own = shelf.find(({ item }) => item.id === itemId);
    if (own === undefined) return { itemId, units: typed, explainedAs: '' };
    if (values.mode === 'counted')
      return { itemId, units: countedAs(typed, own, reading).values.units, explainedAs: '' };
    const said = asCounted({ units: typed }, own.item.unit, ['units'], reading).values.units ?? '';
    const ticked = clearNumberFrom(said.trim());
    if (ticked === null || ticked < 0) return { itemId, units: said, explainedAs: '' };
    const book = piecesInBook(own);
    if (ticked > book)
      tooMany.push({
        ...problem(
          'more-ticked-than-there',
          'units',
          `${typed.trim()} are ticked, and the book has ${figureOf(own.item, book, reading)}. Count it instead.`,
        ),
        path: ['counts', place, 'units'],
      });
    return { itemId, units: String(Math.max(0, book - ticked)), explainedAs: '' };
  });
  const asked = readForm(shelfCountForm, { countedOn: values.countedOn ?? '', counts });
  return tooMany.length > 0 ? refused(...problemsIn(asked), ...tooMany) : asked;
}

/** A problem of the n-th count stands beside the field of its item. */
function besideItem(one: Problem, counted: readonly string[]): Problem {
  const [list, place] = one.path;
  const itemId = list === 'counts' && typeof place === 'number' ? counted[place] : undefined;
  return itemId === undefined ? one : { ...one, path: [`units-${itemId}`] };
}

async function sendTallies(
  request: FastifyRequest,
  reply: FastifyReply,
  sentBack: SentBack | null,
): Promise<FastifyReply> {
  const walk = walkingOrder(await shelfOfRequest(request));
  const lines = walk.map(({ item }) => ({
    itemId: item.id,
    name: `units-${item.id}`,
    item: { name: item.name, family: item.family },
    unit: pieceWords(item, request.reading),
  }));
  const form = statesFrom(() => reply.formKeys(), sentBack)('tallies', {
    mode: 'ticked',
    countedOn: request.today,
    ...Object.fromEntries(lines.map(({ name }) => [name, ''])),
  });
  return reply.page(TalliesPage, { frame: await reply.frame(), form, lines }, sentBack?.status);
}
