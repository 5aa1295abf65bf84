import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import { found, type Outcome, type Problem, refused } from '../../../shared/problems.ts';
import { connectedThingForm, ownConnectedThingForm } from '../../../shared/schemas/account.ts';
import type { Message } from '../../../views/layout/frame.ts';
import { ConnectedThingsPage } from '../../../views/pages/people/connected-things-page.tsx';
import { formatDate } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import {
  connectThing,
  interfaceAddress,
  nameInUse,
  type ThingOnList,
  type ThingScope,
  thingsOf,
  withdrawThing,
} from '../../access/connected-things.ts';
import { addressHere } from '../../plugins/app/own-name.ts';
import type { Reader } from '../../records/record.ts';
import { clockWords } from '../../words/clock-words.ts';
import { answerForm, type SentBack, statesFrom } from '../shared/answer-form.ts';
import { seeOther, sentText } from '../shared/posting.ts';
import { readByRules, readerOf } from '../shared/read-by-rules.ts';
import { isSelf } from './own-account-routes.ts';

const said: Readonly<Record<string, Message>> = {
  withdrawn: { tone: 'done', text: 'Withdrawn. Its access token opens nothing any more.' },
};

/** What reads the household's shelf besides people; owners connect and withdraw it. */
const connectedThings: FastifyPluginAsync = async (app) => {
  app.get('/connected-things', (request, reply) => {
    const query = new URL(request.url, 'http://localhost').searchParams.get('said') ?? '';
    return send(request, reply, { message: said[query] ?? null });
  });

  app.post('/connected-things', async (request, reply) => {
    const asked = await readAsked(request);
    const by = { personId: request.person?.id ?? null, now: app.now() };
    const made = asked.ok ? await connectThing(app.db, request.household.id, asked.value, by) : asked;
    return answerForm(request, reply, made, {
      formId: 'thing',
      done: async ({ token }) => {
        await request.noteSecurity(
          sentText(request, 'may') === 'read' ? 'thing-connected' : 'thing-connected-to-take',
          { householdId: request.household.id },
        );
        return send(request, reply, { made: { name: asked.ok ? asked.value.name : '', token } });
      },
      again: (sentBack) => send(request, reply, { sentBack }),
    });
  });

  app.post<{ Params: { thing: string } }>('/connected-things/:thing/withdrawal', async (request, reply) => {
    const { id } = request.household;
    if (!(await withdrawThing(app.db, id, request.params.thing))) return reply.callNotFound();
    await request.noteSecurity('thing-withdrawn', { householdId: id });
    return seeOther(reply, '/connected-things?said=withdrawn');
  });
};

export default connectedThings;

interface Asked {
  readonly name: string;
  readonly may: ThingScope;
  readonly endsOn: ThingOnList['endsOn'];
}

/** Who is signed in says the passphrase again: a token outlives the sign-in it was made in. */
async function readAsked(request: FastifyRequest): Promise<Outcome<Asked>> {
  const { person } = request;
  const rules = (reader: Reader, asked: Partial<Asked>) => unfitThing(reader, asked, request.reading);
  const read =
    person === null
      ? await readByRules(request, connectedThingForm, request.body, rules)
      : await readByRules(request, ownConnectedThingForm, request.body, rules);
  if (!read.ok) return read;
  const unfit = await rules(readerOf(request), read.value);
  if (unfit.length > 0) return refused(...unfit);
  const known =
    person !== null && 'present' in read.value
      ? await isSelf(request, person, String(read.value.present))
      : found(true);
  return known.ok ? read : known;
}

/** What stands against a thing of that name and last day, whatever else of the form can be read. */
async function unfitThing(
  { trx, householdId, today }: Reader,
  { name, endsOn = null }: Partial<Asked>,
  reading: Reading,
): Promise<readonly Problem[]> {
  const things = await thingsOf(trx, householdId);
  return [
    ...(name !== undefined && things.some((thing) => thing.name === name) ? [nameInUse(name)] : []),
    ...(endsOn !== null && endsOn < today
      ? [
          {
            code: 'last-day-passed',
            path: ['endsOn'],
            message: `Last day cannot be ${formatDate(endsOn, reading)}, which is past. Choose today or a later day, or leave it empty.`,
          },
        ]
      : []),
  ];
}

interface Shown {
  readonly message?: Message | null;
  readonly sentBack?: SentBack;
  readonly made?: { readonly name: string; readonly token: string };
}

async function send(
  request: FastifyRequest,
  reply: FastifyReply,
  { message = null, sentBack, made }: Shown,
): Promise<FastifyReply> {
  const things = await thingsOf(request.server.db, request.household.id);
  return reply.page(
    ConnectedThingsPage,
    {
      frame: await reply.frame(message),
      things: things.map((thing) => ({
        id: thing.id,
        name: thing.name,
        words: thingWords(thing, request),
        keys: reply.formKeys(),
      })),
      made: made ?? null,
      address: `${addressHere(request)}${interfaceAddress}`,
      form: statesFrom(() => reply.formKeys(), sentBack ?? null)('thing', {
        name: '',
        may: 'read',
        endsOn: '',
        present: '',
      }),
      asksPassphrase: request.person !== null,
    },
    sentBack?.status,
  );
}

/** `may read; connected by Ida on …; last used …; until Aug 17` */
function thingWords(thing: ThingOnList, request: FastifyRequest): string {
  const { reading, today } = request;
  const clock = clockWords(request);
  const ends =
    thing.endsOn === null
      ? ''
      : thing.endsOn < today
        ? `; ended with ${formatDate(thing.endsOn, reading)}`
        : `; until ${formatDate(thing.endsOn, reading)}`;
  return [
    thing.may === 'read' ? 'reads' : 'reads and takes',
    `; connected ${thing.madeBy === null ? '' : `by ${thing.madeBy} `}on ${clock(thing.madeAt)}`,
    thing.usedAt === null ? '; not used yet' : `; last used ${clock(thing.usedAt)}`,
    ends,
  ].join('');
}
