import fp from 'fastify-plugin';
import { ShelfwardError } from '../../../shared/problems.ts';

const ownNames = new Set(['localhost', '127.0.0.1', '[::1]', '::1']);

/**
 * Open households answer to this machine's own names only: a page elsewhere that has its name point here (DNS rebinding)
 * would otherwise read them.
 */
export default fp(
  async (app) => {
    if (app.beyondLoopback) return;
    app.addHook('onRequest', async (request) => {
      if (!ownNames.has(request.hostname))
        throw new ShelfwardError('not-this-name', 'expected a request to a name of this machine');
    });
  },
  { name: 'own-name' },
);
