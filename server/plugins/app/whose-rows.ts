import type { FastifyRequest } from 'fastify';
import fp from 'fastify-plugin';
import { holdsApart } from '../../database/apart/adapters.ts';
import { type Sight, seeing } from '../../database/apart/whose-rows.ts';

const sights = new WeakMap<FastifyRequest, Sight>();

/**
 * A request sees accounts until its household is found, and that household's rows from then on, where the database holds
 * households apart by itself. What a body is read by may begin a course of its own, so the sight is taken up again after it.
 */
export default fp(
  async (app) => {
    if (!holdsApart(app.db)) return;
    app.addHook('onRequest', (request, _reply, done) => {
      const sight: Sight = { whose: 'accounts' };
      sights.set(request, sight);
      seeing(sight, done);
    });
    app.addHook('preValidation', (request, _reply, done) =>
      seeing(sights.get(request) ?? { whose: 'nobody' }, done),
    );
  },
  { name: 'whose-rows' },
);

/** From now on the request sees this household's rows alone. */
export function seeHousehold(request: FastifyRequest, household: string): void {
  const sight = sights.get(request);
  if (sight !== undefined) sight.whose = { household };
}
