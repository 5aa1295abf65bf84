import fp from 'fastify-plugin';
import { sql } from 'kysely';

/** For whatever watches over the server: does it answer, and can it reach its file. */
export default fp(
  async (app) => {
    app.get('/health', { logLevel: 'warn' }, (_request, reply) =>
      reply.type('text/plain; charset=utf-8').header('cache-control', 'no-store').send('up\n'),
    );

    app.get('/ready', { logLevel: 'warn' }, async (_request, reply) => {
      reply.type('text/plain; charset=utf-8').header('cache-control', 'no-store');
      try {
        await sql`SELECT count(*) FROM household`.execute(app.db);
        return reply.send('ready\n');
      } catch {
        return reply.code(503).send('not ready\n');
      }
    });
  },
  { name: 'health' },
);
