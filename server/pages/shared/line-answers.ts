import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type Outcome, refused } from '../../../shared/problems.ts';
import { boughtForm, lineForm } from '../../../shared/schemas/buying.ts';
import { readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import { type CalendarDate, calendarDate } from '../../../shared/week.ts';
import type { PurchaseLine } from '../../../src/household/purchase.ts';
import { sourcesOf } from '../../queries/year/harvest.ts';
import { boughtRules, markBought, skipLine, undoLine } from '../../records/year/bought.ts';
import { factsOfRequest } from '../../year/year-of-request.ts';
import { lineFormId } from './buying-lines.ts';
import { recordingOf, sentText } from './posting.ts';
import { asCounted } from './produce/own-units.ts';
import { type InPounds, inPounds } from './produce/typed.ts';
import { readByRules } from './read-by-rules.ts';

const answered = z.enum(['bought', 'skipped']).catch('bought');

/** What a form of a line says: bought, as planned or otherwise, or not to be bought. */
export const answerLine = async (request: FastifyRequest): Promise<Outcome<unknown>> => {
  if (answered.parse(sentText(request, 'answer')) === 'skipped') {
    const line = readForm(lineForm, request.body);
    return line.ok ? skipLine(recordingOf(request), line.value) : line;
  }
  const typed = typedValues(request.body);
  const { values, problems, asTyped } = await amountInPounds(request, typed);
  const sent = {
    ...values,
    paid: typed.paid ? typed.paid : null,
    boughtOn: typed.boughtOn || dayItWaited(typed.waitedSince, request.today),
  };
  const asked = await readByRules(request, boughtForm, sent, boughtRules);
  if (asked.ok && problems.length === 0) return markBought(recordingOf(request), asked.value);
  return refused(...(asked.ok ? [] : asked.problems.map(asTyped)), ...problems);
};

/** Produce may be said in the trade measures of its crop; what else is on the list has one unit. */
async function amountInPounds(
  request: FastifyRequest,
  typed: Readonly<Record<string, string>>,
): Promise<Pick<InPounds, 'values' | 'problems' | 'asTyped'>> {
  if (typed.kind !== 'produce')
    return {
      ...asCounted(typed, await countedIn(request, typed), ['amount'], request.reading),
      problems: [],
    };
  const sources = await sourcesOf(request.server.db, request.household.id);
  const source = sources.find(({ id }) => id === typed.what);
  return source === undefined
    ? { values: typed, problems: [], asTyped: (problem) => problem }
    : inPounds(request, typed, source.crop, [{ field: 'amount', unitField: 'amountUnit' }]);
}

/** What an item or a supply of the list is counted in; jars and lids are counted. */
async function countedIn(
  request: FastifyRequest,
  { kind, what }: Readonly<Record<string, string>>,
): Promise<string> {
  const { items, supplies } = await factsOfRequest(request);
  const of = { item: items, supply: supplies }[kind ?? ''] ?? [];
  return of.find(({ id }) => id === what)?.unit ?? '';
}

/** What waited on a device was bought on the day it was pressed there; a device whose clock is ahead bought it today. */
const dayItWaited = (waitedSince: string | undefined, today: CalendarDate): string => {
  const since = calendarDate.safeParse(waitedSince);
  return since.success && since.data < today ? since.data : '';
};

export const undoneLine = (request: FastifyRequest): Promise<Outcome<unknown>> =>
  undoLine(recordingOf(request), sentText(request, 'id'));

/** Id of the form of the line that was sent. */
export const lineSent = (request: FastifyRequest): string =>
  lineFormId({
    week: sentText(request, 'week') as PurchaseLine['week'],
    kind: sentText(request, 'kind') as PurchaseLine['kind'],
    what: sentText(request, 'what'),
    pack: sentText(request, 'pack') || null,
  });
