import type { FastifyError, FastifyReply, FastifyRequest } from 'fastify';
import fp from 'fastify-plugin';
import { ShelfwardError } from '../../../shared/problems.ts';
import { PlainPage } from '../../../views/pages/plain-page.tsx';
import { retryAfterS } from '../../access/hashing.ts';
import type { SecurityEventKind } from '../../access/security-events.ts';
import { type MachineFault, machineFault } from '../../faults.ts';
import { deletedHouseholds } from '../../queries/household/household.ts';
import { type PlainAnswer, plainAnswers } from '../../words/plain-answers.ts';
import { isOfInterface } from './household.ts';
import { answerThing } from './interface-errors.ts';
import type { AboutEvent } from './security-log.ts';

/** Every failure becomes a page that says what happened and what to do; nothing of the inside is shown. */
export default fp(
  async (app) => {
    const answer = async (reply: FastifyReply, plain: PlainAnswer) => {
      try {
        return reply.page(PlainPage, { frame: await reply.frame(), ...plain }, plain.status);
      } catch (error) {
        // Not even the page for faults could be made (the database may be gone): a few words say so, and nothing else.
        reply.request.log.error({ err: error }, 'the page for a fault failed');
        return reply.code(500).type('text/plain; charset=utf-8').send(`${plain.title}. ${plain.text}\n`);
      }
    };

    app.setNotFoundHandler((request, reply) =>
      isOfInterface(request)
        ? answerThing(request, reply, nothingThere, plainAnswers.notFound)
        : answer(reply, plainAnswers.notFound),
    );
    app.setErrorHandler(async (error: FastifyError, request: FastifyRequest, reply) => {
      // A file without a household has one page to begin on.
      if (error.code === 'no-household' && request.method === 'GET') {
        const gone = (await deletedHouseholds(app.db)).length > 0;
        return reply.redirect(gone ? '/households' : '/start', 302);
      }
      const plain = isTornBody(error, request) ? plainAnswers.notUnderstood : answerFor(error);
      const kind = error.code === 'token-refused' ? undefined : refusals.get(plain);
      if (kind !== undefined) await request.noteSecurity(kind, inHousehold(request));
      if (isOfInterface(request)) return answerThing(request, reply, error, plain);
      if (plain === plainAnswers.passphrasesWait) reply.header('retry-after', String(retryAfterS));
      else if (plain.status >= 500) request.log.error({ err: error }, 'request failed');
      return answer(reply, plain);
    });
  },
  { name: 'errors', dependencies: ['pages', 'security-log'] },
);

const nothingThere: FastifyError = Object.assign(new Error('expected an address of the interface'), {
  name: 'NotFound',
  code: 'not-found',
});

/** A body in several parts that breaks off or is badly made; its reader throws a plain error, known by its words alone. */
const isTornBody = (error: FastifyError, request: FastifyRequest): boolean =>
  error.statusCode === undefined &&
  (request.headers['content-type'] ?? '').startsWith('multipart/') &&
  /^(Unexpected end of|Part terminated early|Malformed part header)/.test(error.message);

/** Refusals that may be attempts on the program. */
const refusals: ReadonlyMap<PlainAnswer, SecurityEventKind> = new Map<PlainAnswer, SecurityEventKind>([
  [plainAnswers.notAllowed, 'not-allowed'],
  [plainAnswers.formExpired, 'form-refused'],
  [plainAnswers.foreignForm, 'form-refused'],
  [plainAnswers.notUnderstood, 'not-understood'],
  [plainAnswers.tooLarge, 'not-understood'],
  [plainAnswers.tooMany, 'asked-too-often'],
]);

/** Concerns the household only where a member or a thing of its own asked. */
const inHousehold = (request: FastifyRequest): AboutEvent =>
  request.thing !== null || (request.person !== null && request.role !== null)
    ? { householdId: request.household.id }
    : {};

const answerFor = (error: FastifyError): PlainAnswer => {
  if (error instanceof ShelfwardError) {
    if (error.code === 'no-household') return plainAnswers.noHousehold;
    if (error.code === 'not-allowed') return plainAnswers.notAllowed;
    if (error.code === 'not-this-name') return plainAnswers.notThisName;
    if (error.code === 'foreign-form') return plainAnswers.foreignForm;
    if (error.code === 'not-found') return plainAnswers.notFound;
    if (error.code === 'passphrases-waiting') return plainAnswers.passphrasesWait;
    if (error.code === 'planner-busy') return plainAnswers.plannerBusy;
    if (error.code === 'asker-left') return plainAnswers.askerLeft;
    if (error.code === 'idempotency-conflict') return plainAnswers.sentTwice;
  }
  if (error.code?.startsWith('FST_CSRF')) return plainAnswers.formExpired;
  const fault = machineFault(error);
  if (fault === 'unreachable' || (fault !== null && isOfStorage(error)))
    return storageAnswers[fault] ?? plainAnswers.ourFault;
  switch (error.statusCode) {
    case 400:
    case 415:
    case 422:
      return plainAnswers.notUnderstood;
    case 413:
      return plainAnswers.tooLarge;
    case 429:
      return plainAnswers.tooMany;
    default:
      return plainAnswers.ourFault;
  }
};

/** Codes of the database: SQLite's words, or the five signs of PostgreSQL. */
const isOfStorage = ({ code }: FastifyError): boolean => /^(SQLITE_|[0-9A-Z]{5}$)/.test(code ?? '');

/** What the database could not do; the transaction around it has been taken back. */
const storageAnswers: Partial<Readonly<Record<MachineFault, PlainAnswer>>> = {
  'disk-full': plainAnswers.diskFull,
  'read-only': plainAnswers.readOnly,
  busy: plainAnswers.busy,
  damaged: plainAnswers.damaged,
  unreachable: plainAnswers.unreachable,
};
