import type { FastifyPluginAsync } from 'fastify';
import { DateTime } from 'luxon';
import { JobsPage } from '../../views/pages/jobs/jobs-page.tsx';
import { jobsOf } from '../queries/jobs.ts';

const words = { backup: 'Backup', notices: 'Notices', replan: 'Plan' } as const;

const jobs: FastifyPluginAsync = async (app) => {
  app.get('/jobs', async (request, reply) => {
    const { id, timeZone, locale } = request.household;
    const done = await jobsOf(app.db, id);
    const clock = (at: number) =>
      DateTime.fromMillis(at, { zone: timeZone }).setLocale(locale).toLocaleString(DateTime.DATETIME_MED);
    return reply.page(JobsPage, {
      frame: await reply.frame(),
      jobs: done.map(({ kind, forOn, attempts, finishedAt, failure }) => ({
        id: `${kind} ${forOn}`,
        what: words[kind],
        night: forOn,
        outcome: finishedAt !== null ? `done ${clock(finishedAt)}` : (failure ?? 'waiting'),
        attempts: String(attempts),
      })),
    });
  });
};

export default jobs;
