import type { FastifyRequest } from 'fastify';
import { counted } from '../../../shared/counting.ts';
import { addDays, type CalendarDate } from '../../../shared/week.ts';
import { isDue, storedWater, type UpkeepLine, upkeepLines } from '../../../src/preserving/upkeep.ts';
import { formatDate } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { cannersOf } from '../../queries/household/kitchen.ts';
import { upkeepOf } from '../../queries/household/upkeep.ts';

/** Everything the household looks after, canner by canner and device by device. */
export async function upkeepNow({ server, household }: FastifyRequest): Promise<readonly UpkeepLine[]> {
  const [upkeep, canners] = await Promise.all([
    upkeepOf(server.db, household.id),
    cannersOf(server.db, household.id),
  ]);
  return upkeepLines(upkeep, canners, storedWater(household, server.reference.emergencyAdvice));
}

/** How many days ahead a page tells of what will be due. */
const soonDays = 30;
export const isSoon = (line: UpkeepLine, today: CalendarDate): boolean =>
  isDue(line, addDays(today, soonDays));

/** `due since Mar 3`, `due by Mar 3`, `not written down yet`, `as needed` */
export function dueWords(
  { last, dueOn, everyMonths }: UpkeepLine,
  today: CalendarDate,
  reading: Reading,
): string {
  if (dueOn === null) return last === null && everyMonths !== null ? 'not written down yet' : 'as needed';
  return dueOn < today ? `due since ${formatDate(dueOn, reading)}` : `due by ${formatDate(dueOn, reading)}`;
}

/** Of all of it, in one sentence: what is due, or when the next is. */
export function upkeepSummary(lines: readonly UpkeepLine[], today: CalendarDate, reading: Reading): string {
  const soon = lines.filter((line) => isSoon(line, today));
  const [next] = lines.flatMap(({ dueOn }) => dueOn ?? []).toSorted();
  if (soon.length > 0) return `${counted(soon.length, 'task')} of upkeep due within the month, or past.`;
  return next === undefined
    ? 'No upkeep has a date.'
    : `No upkeep is due before ${formatDate(next, reading)}.`;
}
