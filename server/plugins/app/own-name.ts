import type { FastifyRequest } from 'fastify';
import fp from 'fastify-plugin';
import { ShelfwardError } from '../../../shared/problems.ts';

const machineNames = ['localhost', '127.0.0.1', '[::1]', '::1'];

/**
 * Only this machine's own names are answered to, and beyond it the one name others use: a page elsewhere that has its name
 * point here (DNS rebinding) would otherwise read an open household, and links would be made with a name somebody sent.
 * The name is what the one `Host` header says; `X-Forwarded-Host` and the like are never read.
 */
export default fp(
  async (app) => {
    const ownNames = new Set(
      app.publicAddress === '' ? machineNames : [...machineNames, new URL(app.publicAddress).hostname],
    );
    app.addHook('onRequest', async (request) => {
      const asked = namesAsked(request);
      if (asked.length !== 1 || !ownNames.has(asked[0] ?? ''))
        throw new ShelfwardError('not-this-name', 'expected a request to a name of this program');
    });
  },
  { name: 'own-name' },
);

const withoutPort = (host: string): string => host.toLowerCase().replace(/:\d{1,5}$/, '');

/** Whether a `Host` is a name of this machine for itself. */
export const isMachineName = (host: string): boolean => machineNames.includes(withoutPort(host));

/** Every name the request was sent to, in small letters and without a port; Node itself keeps only the first of several. */
const namesAsked = ({ raw }: FastifyRequest): readonly string[] => {
  const sent = raw.rawHeaders ?? [];
  const hosts = sent.flatMap((text, at) =>
    at % 2 === 1 && sent[at - 1]?.toLowerCase() === 'host' ? [text] : [],
  );
  return hosts.map(withoutPort);
};

/** Where a browser reaches these pages: the public address as set, and on this machine alone the own name it asked for. */
export const addressHere = ({ server, headers }: Pick<FastifyRequest, 'server' | 'headers'>): string =>
  server.publicAddress || `http://${headers.host ?? 'localhost'}`;
