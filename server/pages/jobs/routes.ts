import type { FastifyPluginAsync } from 'fastify';
import { DateTime } from 'luxon';
import { JobsPage } from '../../../views/pages/jobs/jobs-page.tsx';
import { jobsOf } from '../../queries/notices/jobs.ts';
import { troublesOf } from '../../queries/notices/troubles.ts';
import { presentTroubles } from '../../words/troubles.ts';

const words = { backup: 'Backup', notices: 'Notices', replan: 'Plan', letter: 'Letter' } as const;

const jobs: FastifyPluginAsync = async (app) => {
  app.get('/jobs', async (request, reply) => {
    const { id, timeZone, locale } = request.household;
    const [done, troubles] = await Promise.all([jobsOf(app.db, id), troublesOf(app.db, id, app.now())]);
    const clock = (at: number) =>
      DateTime.fromMillis(at, { zone: timeZone }).setLocale(locale).toLocaleString(DateTime.DATETIME_MED);
    return reply.page(JobsPage, {
      frame: await reply.frame(),
      troubles: presentTroubles(troubles, { timeZone, reading: request.reading }),
      jobs: done.map(({ seq, kind, forOn, attempts, finishedAt, failure }) => ({
        id: String(seq),
        what: words[kind],
        night: forOn,
        outcome: outcomeOf(finishedAt === null ? null : clock(finishedAt), failure),
        attempts: String(attempts),
      })),
    });
  });
};

/** A job that ended with a failure was let go: a letter that nobody wants any more. */
const outcomeOf = (finished: string | null, failure: string | null): string =>
  failure ?? (finished === null ? 'waiting' : `done ${finished}`);

export default jobs;
