import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { ItemId } from '../../../shared/ids.ts';
import { refused } from '../../../shared/problems.ts';
import { readForm } from '../../../shared/schemas/form-fields.ts';
import { shelfCountForm } from '../../../shared/schemas/shelf/shelf-count.ts';
import type { CountOfItem } from '../../../src/household/ledger.ts';
import type { ItemOnShelf } from '../../../src/household/lot.ts';
import { CountItemPage, CountOverviewPage } from '../../../views/pages/shelf/count-pages.tsx';
import { countShelf } from '../../records/shelf/count-shelf.ts';
import { neverTapped } from '../../words/never-tapped.ts';
import { shelfOfRequest } from '../../year/book-of-year.ts';
import { oncePerPicture, yearOfRequest } from '../../year/year-of-request.ts';
import { answerForm, type SentBack, sentBackOf, statesFrom } from '../shared/answer-form.ts';
import { recordingOf, sentText } from '../shared/posting.ts';
import { itemOn } from '../shared/shelf-picture.ts';
import {
  countedAs,
  nextToCount,
  piecesInBook,
  presentCountItem,
  presentCountOverview,
  presentDifference,
  walkingOrder,
} from './present-count.ts';

const countQuery = z.object({ item: z.string().max(80).catch('') });

interface Counting {
  readonly walk: readonly ItemOnShelf[];
  readonly counts: ReadonlyMap<ItemId, CountOfItem>;
}

const counts: FastifyPluginAsync = async (app) => {
  app.get('/shelf/count', async (request, reply) => {
    const { item } = countQuery.parse(request.query);
    const counting = await countingOf(request);
    if (item !== '') return sendItem(request, reply, counting, itemOn(counting.walk, item));

    const { loaded } = await yearOfRequest(request);
    const overview = presentCountOverview(
      counting.walk,
      counting.counts,
      request.today,
      request.reading,
      neverTapped(loaded),
    );
    return reply.page(CountOverviewPage, { frame: await reply.frame(), ...overview });
  });

  app.post('/shelf/counts', async (request, reply) => {
    const counting = await countingOf(request);
    const shelf = itemOn(counting.walk, sentText(request, 'itemId'));
    const explainedAs = sentText(request, 'explainedAs');
    const { values, asTyped } = countTyped(request, shelf);
    const read = readForm(shelfCountForm, {
      countedOn: '',
      counts: [{ itemId: shelf.item.id, units: values.units, explainedAs }],
    });
    const asked = read.ok ? read : refused(...read.problems.map(asTyped));
    const [line] = asked.ok ? asked.value.counts : [];
    const differs = line !== undefined && Math.abs(line.units - piecesInBook(shelf)) > 1e-9;
    if (differs && explainedAs === '')
      return sendItem(request, reply, counting, shelf, {
        ...sentBackOf(request, [], { formId: 'count' }),
        status: 200,
      });

    const outcome = asked.ok ? await countShelf(recordingOf(request), asked.value) : asked;
    return answerForm(request, reply, outcome, {
      formId: 'count',
      done: async () => {
        const after = await countingOf(request);
        return nextToCount(after.walk, after.counts, request.today, shelf.item.id) ?? '/shelf/count';
      },
      again: (sentBack) => sendItem(request, reply, counting, shelf, sentBack),
    });
  });
};

export default counts;

/** The number that was typed, in what the item is counted in; what is weighed as the book says it is what the book has. */
function countTyped(request: FastifyRequest, shelf: ItemOnShelf) {
  return countedAs(sentText(request, 'units'), shelf, request.reading);
}

async function countingOf(request: FastifyRequest): Promise<Counting> {
  const [shelf, counts] = await Promise.all([shelfOfRequest(request), countsOfRequest(request)]);
  return { walk: walkingOrder(shelf), counts };
}

const countsOfRequest = oncePerPicture<Counting['counts']>(
  ({ loaded: { facts } }) => new Map(facts.counts.map((count) => [count.itemId, count])),
);

/** One item to count. The book's figure is shown only once a number was typed that differs from it. */
async function sendItem(
  request: FastifyRequest,
  reply: FastifyReply,
  { walk, counts: newest }: Counting,
  shelf: ItemOnShelf,
  sentBack: SentBack | null = null,
): Promise<FastifyReply> {
  const { values } = countTyped(request, shelf);
  const number = readForm(shelfCountForm.shape.counts.element.pick({ units: true }), { units: values.units });
  const difference = number.ok ? presentDifference(shelf, number.value.units, request.reading) : null;
  const form = statesFrom(() => reply.formKeys(), sentBack)('count', { units: '', explainedAs: '' });
  const [likely = { value: '' }] = difference?.explanations ?? [];
  const isChosen = difference?.explanations.some(({ value }) => value === form.values.explainedAs);
  const count = presentCountItem(shelf, {
    walk,
    counts: newest,
    today: request.today,
    reading: request.reading,
    form: isChosen ? form : { ...form, values: { ...form.values, explainedAs: likely.value } },
    difference,
  });
  return reply.page(CountItemPage, { frame: await reply.frame(), count }, sentBack?.status);
}
