import type { FastifyRequest } from 'fastify';
import { DateTime } from 'luxon';

/** Instants as the household reads them: its zone, its way to write dates and times. */
export const clockWords = (request: FastifyRequest): ((at: number) => string) => {
  const { timeZone, locale } = request.visibleHouseholds.length === 0 ? elsewhere : request.household;
  return (at) =>
    DateTime.fromMillis(at, { zone: timeZone }).setLocale(locale).toLocaleString(DateTime.DATETIME_MED);
};

/** For somebody who belongs to no household. */
const elsewhere = { timeZone: 'UTC', locale: 'en-US' } as const;
