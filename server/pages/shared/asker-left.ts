import type { FastifyReply } from 'fastify';

/** Told when the connection closes before the answer was sent: nobody waits for it any more. */
export function askerLeft(reply: FastifyReply): AbortSignal {
  const leaving = new AbortController();
  const answer = reply.raw;
  const look = () => {
    if (!answer.writableEnded) leaving.abort();
  };
  if (answer.destroyed) look();
  else answer.once('close', look);
  return leaving.signal;
}
