import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';

/**
 * The cookies of this program: who is signed in, whose second factor is waited for, which household is looked at, the
 * secret of forms, whether the device is the person's own.
 */
export type OwnCookie = 'sign-in' | 'half-sign-in' | 'household' | 'form' | 'own-device';

/**
 * The name a cookie travels under. Behind TLS it begins with `__Host-`, so that a browser takes it from this very host
 * only, for every path and over TLS; without TLS a browser would not keep such a cookie.
 */
export const cookieName = ({ beyondLoopback }: Pick<FastifyInstance, 'beyondLoopback'>, cookie: OwnCookie) =>
  beyondLoopback ? `__Host-${cookie}` : cookie;

export const readCookie = (request: FastifyRequest, cookie: OwnCookie): string | undefined =>
  request.cookies[cookieName(request.server, cookie)];

/** Sent back by the browser to this program alone, and out of reach of any script. */
export const setCookie = (
  reply: FastifyReply,
  cookie: OwnCookie,
  value: string,
  lastsMs: number,
): FastifyReply =>
  reply.setCookie(cookieName(reply.server, cookie), value, {
    path: '/',
    httpOnly: true,
    sameSite: 'lax',
    secure: reply.server.beyondLoopback,
    maxAge: Math.floor(lastsMs / 1000),
  });

export const clearCookie = (reply: FastifyReply, cookie: OwnCookie): FastifyReply =>
  reply.clearCookie(cookieName(reply.server, cookie), { path: '/', secure: reply.server.beyondLoopback });
