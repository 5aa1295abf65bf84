import { setTimeout as pause } from 'node:timers/promises';
import fp from 'fastify-plugin';
import { hashingHasRoom, retryAfterS } from '../../access/hashing.ts';
import { plainAnswers } from '../../words/plain-answers.ts';

/** So many refused guesses are kept waiting for their answer, which costs nothing; further ones are answered at once. */
const mostHeld = 1000;
/** How long, in steps, so that those who came together do not come again together. */
const holdStepMs = 400;
const holdSteps = 10;

/**
 * While too many passphrases wait to be looked at, a further guess is refused before anything is read for it, and slowly: whoever
 * guesses from two hundred networks at once would otherwise have the pages of everybody else wait behind two hundred refusals.
 */
export default fp(
  async (app) => {
    let held = 0;
    app.addHook('onRequest', async (request, reply) => {
      if (request.method !== 'POST' || request.url.split('?')[0] !== '/sign-in' || hashingHasRoom()) return;
      if (held < mostHeld) {
        held += 1;
        try {
          await pause(holdStepMs * (holdSteps / 2 + (held % holdSteps)));
        } finally {
          held -= 1;
        }
      }
      const { status, title, text } = plainAnswers.passphrasesWait;
      return reply
        .code(status)
        .header('retry-after', String(retryAfterS))
        .type('text/plain; charset=utf-8')
        .send(`${title}. ${text}\n`);
    });
  },
  { name: 'sign-in-queue' },
);
