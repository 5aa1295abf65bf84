import type { FastifyInstance } from 'fastify';
import fp from 'fastify-plugin';
import { sql } from 'kysely';
import { faultWords } from '../../faults.ts';
import { failedWork, oldBackup } from '../../queries/notices/troubles.ts';

/**
 * For whatever watches over the server: does it answer, and can it reach its file. What does not keep pages from being
 * served (an old backup, a job that failed) is told in a line that begins with `degraded`, under the same 200: a proxy must not
 * turn people away because of it.
 */
export default fp(
  async (app) => {
    app.get('/health', { logLevel: 'warn' }, (_request, reply) =>
      reply.type('text/plain; charset=utf-8').header('cache-control', 'no-store').send('up\n'),
    );

    app.get('/ready', { logLevel: 'warn' }, async (_request, reply) => {
      reply.type('text/plain; charset=utf-8').header('cache-control', 'no-store');
      try {
        await sql`SELECT id FROM household LIMIT 1`.execute(app.db);
        return reply.send(['ready', ...(await degraded(app)), ''].join('\n'));
      } catch {
        return reply.code(503).send('not ready\n');
      }
    });
  },
  { name: 'health' },
);

/** Names no household and nothing of what it holds. */
async function degraded({ db, now }: FastifyInstance): Promise<readonly string[]> {
  try {
    const [old, failed] = await Promise.all([oldBackup(db, now()), failedWork(db)]);
    return [
      ...(old === null
        ? []
        : [
            `degraded: ${old.madeAt === null ? 'no backup was made for two days' : `the newest backup is from ${new Date(old.madeAt).toISOString()}`}`,
          ]),
      ...(failed === 0 ? [] : [`degraded: ${failed} of the night's jobs failed; see the log`]),
    ];
  } catch (cause) {
    return [`degraded: ${faultWords(cause, 'the night could not be looked at')}`];
  }
}
