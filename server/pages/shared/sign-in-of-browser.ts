import type { FastifyReply, FastifyRequest } from 'fastify';
import { deviceWords } from '../../access/device-words.ts';
import { beginSignIn, renewSignIn, signInLimits } from '../../access/sign-ins.ts';
import { readCookie, setCookie } from '../../plugins/app/own-cookies.ts';

/** From now on this browser is signed in. */
export async function letIn(request: FastifyRequest, reply: FastifyReply, personId: string): Promise<void> {
  const { db, now } = request.server;
  const token = await beginSignIn(db, personId, now(), {
    earlier: readCookie(request, 'sign-in'),
    device: deviceWords(request.headers['user-agent']),
  });
  setCookie(reply, 'sign-in', token, signInLimits.wholeMs);
}

/** The passphrase was asked for again and right: the sign-in goes on under a new token, if it has not just ended. */
export async function renewOwnSignIn(request: FastifyRequest, reply: FastifyReply): Promise<void> {
  const earlier = readCookie(request, 'sign-in');
  if (earlier === undefined) return;
  const token = await renewSignIn(request.server.db, earlier);
  if (token !== null) setCookie(reply, 'sign-in', token, signInLimits.wholeMs);
}
