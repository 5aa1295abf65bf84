import type { FastifyRequest } from 'fastify';
import type { NoticeOnRecord } from '../../queries/notices/notices.ts';
import { oncePerLook, yearOfRequest } from '../../year/year-of-request.ts';
import { noticesBy } from './standing-notices.ts';

/** The notices that stand now in the household that asks. */
export const noticesOfRequest: (request: FastifyRequest) => Promise<readonly NoticeOnRecord[]> = oncePerLook(
  async (request) =>
    noticesBy(await yearOfRequest(request), request.server.db, request.household.id, {
      at: request.server.now(),
      today: request.today,
    }),
);
