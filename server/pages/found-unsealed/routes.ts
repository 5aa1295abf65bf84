import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { bounds } from '../../../shared/bounds.ts';
import { lotId } from '../../../shared/ids.ts';
import { choiceField, numberField, typedValues } from '../../../shared/schemas/form-fields.ts';
import { idField } from '../../../shared/schemas/id-fields.ts';
import type { Take } from '../../../shared/schemas/shelf/take.ts';
import { type SuspectJar, suspectJarHandling } from '../../../src/preserving/afterwards/found-unsealed.ts';
import { inWords } from '../../../src/preserving/citation.ts';
import { acidityOf } from '../../../src/preserving/recipes/item-acidity.ts';
import {
  FoundUnsealedPage,
  type HandlingProps,
} from '../../../views/pages/found-unsealed/found-unsealed-page.tsx';
import { formatDate, withMetric } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { take, takeRules } from '../../records/shelf/take.ts';
import { bookOfRequest } from '../../year/book-of-year.ts';
import { factsOfRequest } from '../../year/year-of-request.ts';
import { answerForm, type SentBack, statesFrom } from '../shared/answer-form.ts';
import { recordingOf } from '../shared/posting.ts';
import { readByRules } from '../shared/read-by-rules.ts';

/** Of which batch jars were found, and how. */
const foundForm = z.object({
  lotId: idField('Batch', lotId),
  state: choiceField('state of the jar', ['open', 'swollen']),
  units: numberField({ label: 'How many jars', ...bounds.unitsTaken, example: '1' }),
});
type Found = Readonly<z.output<typeof foundForm>>;

/** They are thrown away, never tasted. */
const thrownAway = ({ lotId: lot, units }: Found, by: string | null): Take => ({
  itemId: null,
  lotId: lot,
  jarKind: null,
  units,
  kind: 'discarded',
  reason: 'not-sealed',
  occurredOn: null,
  late: false,
  forPromise: false,
  takenBy: by,
});

const pageQuery = z.object({ lot: z.string().max(80).catch(''), state: z.string().max(10).catch('') });

const foundUnsealed: FastifyPluginAsync = async (app) => {
  app.get('/found-unsealed', async (request, reply) => {
    const { lot, state } = pageQuery.parse(request.query);
    return sendPage(request, reply, lot, state, null);
  });

  app.post('/found-unsealed', async (request, reply) => {
    const typed = typedValues(request.body);
    const asked = await readByRules(request, foundForm, typed, takeRules);
    const outcome = asked.ok
      ? await take(recordingOf(request), thrownAway(asked.value, request.person?.name ?? null))
      : asked;
    return answerForm(request, reply, outcome, {
      formId: 'unsealed',
      renamed: { itemId: 'lotId' },
      done: `/found-unsealed?lot=${encodeURIComponent(typed.lotId ?? '')}&state=${typed.state ?? ''}`,
      again: (sentBack) => sendPage(request, reply, '', '', sentBack),
    });
  });
};

export default foundUnsealed;

async function sendPage(
  request: FastifyRequest,
  reply: FastifyReply,
  lot: string,
  state: string,
  sentBack: SentBack | null,
): Promise<FastifyReply> {
  const { reference } = request.server;
  const { reading } = request;
  const [{ lots }, { items, recipes }] = await Promise.all([bookOfRequest(request), factsOfRequest(request)]);
  const form = statesFrom(() => reply.formKeys(), sentBack)('unsealed', {
    lotId: lot,
    units: '1',
    state: sentBack !== null ? '' : state === 'swollen' ? 'swollen' : 'open',
  });
  const { values } = form;
  const itemOf = (itemId: string) => items.find(({ id }) => id === itemId);
  const chosen = lots.find(({ id }) => id === values.lotId);
  const item = chosen && itemOf(chosen.itemId);
  return reply.page(
    FoundUnsealedPage,
    {
      frame: await reply.frame(),
      handling: item
        ? [
            handlingFor(
              item.name,
              {
                acidity: acidityOf(item, recipes, reference) ?? 'unknown',
                tomato: item.family === 'tomatoes',
                stillSealed: values.state === 'swollen',
              },
              reading,
            ),
          ]
        : generalHandling(reading),
      form,
      lots: [
        { value: '', words: 'Choose the batch' },
        ...lots
          .filter((lot) => lot.jarKind !== null && (lot.unitsLeft > 0 || lot.id === values.lotId))
          .flatMap((lot) => {
            const own = itemOf(lot.itemId);
            return own
              ? [
                  {
                    value: lot.id,
                    words: `${own.name}, batch ${lot.batchCode} of ${formatDate(lot.madeOn, reading)}, ${lot.unitsLeft} left`,
                  },
                ]
              : [];
          })
          .toSorted((one, other) => (one.words < other.words ? -1 : 1)),
      ],
    },
    sentBack?.status,
  );
}

const handlingFor = (title: string, jar: SuspectJar, reading: Reading): HandlingProps => {
  const steps = suspectJarHandling(jar);
  return {
    title,
    steps: steps.map(({ text }) => withMetric(text, reading)),
    source: `Source: ${[...new Set(steps.map(({ source }) => inWords(source)))].join('; ')}. When in doubt, ask your local extension service.`,
  };
};

/** Until a batch is named, every jar is handled as the most dangerous. */
const generalHandling = (reading: Reading): readonly HandlingProps[] => [
  handlingFor('Open, leaking or loose', { acidity: 'unknown', tomato: false, stillSealed: false }, reading),
  handlingFor('Swollen, still sealed', { acidity: 'unknown', tomato: false, stillSealed: true }, reading),
];
