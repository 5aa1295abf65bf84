import { randomUUID } from 'node:crypto';
import csrfProtection from '@fastify/csrf-protection';
import type { FastifyReply, FastifyRequest } from 'fastify';
import fp from 'fastify-plugin';
import { ShelfwardError } from '../../../shared/problems.ts';
import { isOfInterface } from './household.ts';
import { cookieName } from './own-cookies.ts';
import { addressHere, isMachineName } from './own-name.ts';

const readingMethods = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * Every request that may change something comes from a page of this program, as far as the browser says so, and carries the
 * token its form was sent with.
 */
export default fp(
  async (app) => {
    await app.register(csrfProtection, {
      cookieKey: cookieName(app, 'form'),
      cookieOpts: { path: '/', sameSite: 'strict', httpOnly: true, secure: app.beyondLoopback },
    });

    // The keys of one page differ in their number alone: random letters are what no compression makes shorter.
    const ofPage = new WeakMap<
      FastifyReply,
      { readonly csrf: string; readonly page: string; forms: number }
    >();
    app.decorateReply('formKeys', function () {
      const own = ofPage.get(this) ?? { csrf: this.generateCsrf(), page: randomUUID(), forms: 0 };
      own.forms += 1;
      ofPage.set(this, own);
      return { csrf: own.csrf, key: `${own.page}-${own.forms}` };
    });

    app.addHook('preHandler', (request, reply, done) => {
      // What is let in by an access token alone comes from no form, and no other page can send one it does not know.
      if (readingMethods.has(request.method) || isOfInterface(request)) done();
      else if (isForeign(request))
        throw new ShelfwardError('foreign-form', 'expected a form of our own pages');
      else app.csrfProtection(request, reply, done);
    });
  },
  { name: 'csrf', dependencies: ['cookies', 'forms'] },
);

/**
 * Whether the browser says that another page sent this: by `Sec-Fetch-Site` (W3C Fetch Metadata), or by an `Origin` (RFC 6454)
 * that is none of ours. Programs that are no browsers say neither.
 */
function isForeign(request: FastifyRequest): boolean {
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return true;
  const { origin, host = '' } = request.headers;
  if (origin === undefined || (origin === 'null' && site === 'same-origin')) return false;
  // The machine itself may be asked by its own name while others use the public one.
  return origin !== addressHere(request) && (origin !== `http://${host}` || !isMachineName(host));
}
