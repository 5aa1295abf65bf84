import fp from 'fastify-plugin';
import { ShelfwardError } from '../../../shared/problems.ts';

const machineNames = ['localhost', '127.0.0.1', '[::1]', '::1'];

/**
 * Only this machine's own names are answered to, and beyond it the one name others use: a page elsewhere that has its name
 * point here (DNS rebinding) would otherwise read an open household, and links would be made with a name somebody sent.
 */
export default fp(
  async (app) => {
    const ownNames = new Set(
      app.publicAddress === '' ? machineNames : [...machineNames, new URL(app.publicAddress).hostname],
    );
    app.addHook('onRequest', async (request) => {
      if (!ownNames.has(request.hostname))
        throw new ShelfwardError('not-this-name', 'expected a request to a name of this program');
    });
  },
  { name: 'own-name' },
);
