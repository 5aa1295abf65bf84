import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { found, type Outcome, refused, together } from '../../../shared/problems.ts';
import { choiceField, dateField, fitting, readForm } from '../../../shared/schemas/form-fields.ts';
import { type Take, takeForm } from '../../../shared/schemas/shelf/take.ts';
import { takeOutcomes } from '../../../shared/schemas/shelf/waiting-take.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import { ShelfItemPage } from '../../../views/pages/shelf/shelf-item-page.tsx';
import { ShelfPage } from '../../../views/pages/shelf/shelf-page.tsx';
import { ShelfRow } from '../../../views/pages/shelf/shelf-row.tsx';
import { TakeAnswer } from '../../../views/pages/shelf/take-answer.tsx';
import { addressOfPart } from '../../../views/parts/item-parts.tsx';
import { memberNamed } from '../../access/members.ts';
import { shelfByItem } from '../../queries/shelf/shelf.ts';
import { take, takeRules } from '../../records/shelf/take.ts';
import { takenAs } from '../../records/shelf/waiting-takes.ts';
import { historyOf, openJarsOfRequest } from '../../year/book-of-year.ts';
import { answerForm, type SentBack } from '../shared/answer-form.ts';
import { itemHead } from '../shared/item-head.ts';
import { mayKeepShelf } from '../shared/own-device.ts';
import { recordingOf, seeOther, sentText } from '../shared/posting.ts';
import { lastSunday } from '../shared/present-take.ts';
import { presentUndo } from '../shared/present-undo.ts';
import { asCounted } from '../shared/produce/own-units.ts';
import { readByRules, readerOf } from '../shared/read-by-rules.ts';
import { itemOn, shelfPicture } from '../shared/shelf-picture.ts';
import { wantsPart } from '../shared/wants-part.ts';
import { shelfMessage } from './messages.ts';
import { presentShelfItem } from './present-item.ts';
import { presentConflicts, presentFamilies, presentRow, shelfSummary } from './present-shelf.ts';

const howForm = z.object({ outcome: choiceField('reason', takeOutcomes) });
const dayForm = z.object({ day: choiceField('day', ['today', 'yesterday', 'sunday', 'other']) });
const otherDayForm = z.object({ date: dateField('The other day') });

type TakeRequest = FastifyRequest<{ Params: { item: string } }>;

const takes: FastifyPluginAsync = async (app) => {
  app.post<{ Params: { item: string } }>('/shelf/:item/takes', async (request, reply) => {
    if (isOfAnotherHousehold(request)) return sendElsewhere(request, reply);
    const { item } = itemOn(await shelfByItem(app.db, request.household.id), request.params.item);
    const asked = await readTake(request, item);
    const outcome = asked.ok ? await take(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      formId: request.params.item,
      renamed: { takenBy: 'units', occurredOn: sentText(request, 'day') === 'other' ? 'date' : 'day' },
      done: ({ conflictUnits }) => sendTaken(request, reply, conflictUnits > 0 ? 'differs' : ''),
      again: (sentBack) => sendBack(request, reply, sentBack),
    });
  });
};

export default takes;

/** The way back to where it was taken; a row alone comes with its undo. */
async function sendTaken(
  request: TakeRequest,
  reply: FastifyReply,
  differs: '' | 'differs',
): Promise<string | FastifyReply> {
  const answers = sentText(request, 'answers');
  if (answers !== 'row') {
    const part = differs === '' ? answers : 'shelf';
    return `${addressOfPart(part, request.params.item)}${differs && '?said=differs'}#undo`;
  }
  if (!wantsPart(request)) return `/shelf${differs && '?said=differs'}#undo`;
  const picture = await shelfPicture(request);
  const { openNotices } = await reply.frame();
  return reply.part(TakeAnswer, {
    row: presentRow(picture, itemOn(picture.shelf, request.params.item), reply.formKeys()),
    undo: presentUndo(picture, () => reply.formKeys()),
    openNotices,
    message: shelfMessage(differs),
  });
}

/** A page of another household that was open here before: what stands on it is not this shelf. */
const isOfAnotherHousehold = (request: TakeRequest): boolean => {
  const shown = sentText(request, 'household');
  return shown !== '' && shown !== request.household.id;
};

/** Nothing is taken; the shelf that is open now comes instead, and says so. */
const sendElsewhere = (request: TakeRequest, reply: FastifyReply): FastifyReply =>
  wantsPart(request)
    ? reply.code(200).header('hx-redirect', '/shelf?said=elsewhere').send()
    : seeOther(reply, '/shelf?said=elsewhere');

/** The one touch takes one of the lot it named, today, whatever else stands in the form. */
async function readTake(request: TakeRequest, item: Item): Promise<Outcome<Take>> {
  const who = await memberNamed(request.server.db, request.household.id, sentText(request, 'who'));
  const isOthers = sentText(request, 'who') !== '';
  const how = isOthers ? found({ outcome: 'taken' as const }) : readForm(howForm, request.body);
  const outcome = how.ok ? how.value.outcome : 'taken';
  const isOneTouch = outcome === 'took-one';
  const day: Outcome<CalendarDate> = isOneTouch ? found(request.today) : readDay(request);
  const picked = isOneTouch || sentText(request, 'picked') !== '';
  const units = isOneTouch ? '1' : sentText(request, 'units');
  const { values, asTyped } = asCounted({ units }, item.unit, ['units'], request.reading);
  const sent = {
    itemId: request.params.item,
    lotId: picked ? sentText(request, 'lotId') : '',
    units: values.units,
    ...takenAs[outcome],
    occurredOn: day.ok ? day.value : '',
    forPromise: isOneTouch ? '' : sentText(request, 'forPromise'),
    takenBy: (who.ok ? who.value : null) ?? request.person?.name ?? '',
  };
  const read = await readByRules(request, takeForm, sent, takeRules);
  const rest = read.ok ? read : refused(...read.problems.map(asTyped));
  // Where the way it went or the day cannot be read, the rest of the form is held against its rules all the same.
  const besides =
    rest.ok && !(who.ok && how.ok && day.ok)
      ? await takeRules(readerOf(request), fitting(takeForm, sent))
      : [];
  const all = together(together(who, how), together(rest, day));
  return all.ok ? rest : refused(...all.problems, ...besides);
}

function readDay(request: TakeRequest): Outcome<CalendarDate> {
  const read = readForm(dayForm, request.body);
  if (!read.ok) return read;
  const { today } = request;
  switch (read.value.day) {
    case 'today':
      return found(today);
    case 'yesterday':
      return found(addDays(today, -1));
    case 'sunday':
      return found(lastSunday(today));
    case 'other': {
      const other = readForm(otherDayForm, request.body);
      return other.ok ? found(other.value.date) : other;
    }
  }
}

/** The same row (or page) with what was typed and what has to be mended. */
async function sendBack(
  request: TakeRequest,
  reply: FastifyReply,
  sentBack: SentBack,
): Promise<FastifyReply> {
  const picture = await shelfPicture(request);
  const item = itemOn(picture.shelf, request.params.item);
  const keys = () => reply.formKeys();
  if (sentText(request, 'answers') !== 'row') {
    const pickedLot = sentText(request, 'picked') === '' ? null : sentText(request, 'lotId');
    const history = await historyOf(request, item.item.id);
    const open = await openJarsOfRequest(request, item.item.id);
    const head = await itemHead(request, reply, item.item, 'shelf', { pickedLot, sentBack, shelf: picture });
    const offeredLot = head.take?.lotId ?? null;
    const props = presentShelfItem(picture, item, history, { offeredLot, before: null, open, keys });
    return reply.page(ShelfItemPage, { frame: await reply.frame(), head, ...props }, sentBack.status);
  }
  if (wantsPart(request))
    return reply.part(ShelfRow, presentRow(picture, item, keys(), sentBack), sentBack.status);
  return reply.page(
    ShelfPage,
    {
      frame: await reply.frame(),
      summary: shelfSummary(picture),
      undo: presentUndo(picture, keys),
      conflicts: presentConflicts(picture, keys),
      find: '',
      staysHere: mayKeepShelf(request),
      families: presentFamilies(picture, '', keys, sentBack),
    },
    sentBack.status,
  );
}
