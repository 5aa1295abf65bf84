import { randomUUID } from 'node:crypto';
import csrfProtection from '@fastify/csrf-protection';
import type { FastifyReply } from 'fastify';
import fp from 'fastify-plugin';
import { cookieName } from './own-cookies.ts';

const readingMethods = new Set(['GET', 'HEAD', 'OPTIONS']);

/** Every request that may change something carries the token its form was sent with. */
export default fp(
  async (app) => {
    await app.register(csrfProtection, {
      cookieKey: cookieName(app, 'form'),
      cookieOpts: { path: '/', sameSite: 'strict', httpOnly: true, secure: app.beyondLoopback },
    });

    const tokens = new WeakMap<FastifyReply, string>();
    app.decorateReply('formKeys', function () {
      const csrf = tokens.get(this) ?? this.generateCsrf();
      tokens.set(this, csrf);
      return { csrf, key: randomUUID() };
    });

    app.addHook('preHandler', (request, reply, done) => {
      if (readingMethods.has(request.method)) done();
      else app.csrfProtection(request, reply, done);
    });
  },
  { name: 'csrf', dependencies: ['cookies', 'forms'] },
);
