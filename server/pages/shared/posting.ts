import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Problem } from '../../../shared/problems.ts';
import type { NameAnswered } from '../../../src/preserving/foods/name-questions.ts';
import { guessesWait } from '../../access/passphrase-change.ts';
import { readingBusy } from '../../files/reading-process.ts';
import { keyReused } from '../../records/once.ts';
import type { Recording } from '../../records/record.ts';

/** Who writes, when, and under which key, as a form sent it. */
export const recordingOf = (request: FastifyRequest): Recording => ({
  db: request.server.db,
  householdId: request.household.id,
  at: request.server.now(),
  today: request.today,
  key: sentText(request, 'key'),
  by: request.person?.name ?? null,
  steady: request.server.steady?.() ?? null,
});

/** One value of a form as it was typed; empty when it was not sent. */
export const sentText = (request: FastifyRequest, name: string): string => {
  const { body } = request;
  if (typeof body !== 'object' || body === null) return '';
  const raw: unknown = Object.entries(body).find(([field]) => field === name)?.[1];
  const last: unknown = Array.isArray(raw) ? raw.at(-1) : raw;
  return typeof last === 'string' ? last : '';
};

/** What was answered to the question about a name, with the name and the food it was asked of. */
export const nameAnswered = (request: FastifyRequest): NameAnswered => ({
  name: sentText(request, 'askedName'),
  otherFood: sentText(request, 'askedFood'),
  inIt: sentText(request, 'inIt'),
});

/** 422 for what can be mended in the form; 409 for a form that was sent before with other contents; 429 after too many guesses; 503 for later. */
export const statusOf = (problems: readonly Problem[]): 409 | 422 | 429 | 503 => {
  if (problems.some(({ code }) => code === guessesWait.code)) return 429;
  if (problems.some(({ code }) => code === keyReused)) return 409;
  return problems.some(({ code }) => code === readingBusy) ? 503 : 422;
};

/** After a change: the page that shows it, so that loading it again repeats nothing. */
export const seeOther = (reply: FastifyReply, address: string): FastifyReply => sendTo(reply, address, 303);

/** Another page has what was asked for. */
export const sendTo = (reply: FastifyReply, address: string, status: 302 | 303): FastifyReply =>
  reply.redirect(address.replaceAll(/[^\x21-\x7e]/gu, inBytes), status);

/** What cannot stand in a header, as an address carries it; half a character becomes the sign for one that is missing. */
const inBytes = (character: string): string =>
  [...Buffer.from(character)].map((byte) => `%${byte.toString(16).padStart(2, '0').toUpperCase()}`).join('');
