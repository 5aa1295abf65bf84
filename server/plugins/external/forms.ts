import formbody from '@fastify/formbody';
import fp from 'fastify-plugin';

/** Largest body any form may send. Anything larger is answered with 413. */
export const bodyLimitInBytes = 1_048_576;

export default fp(async (app) => void (await app.register(formbody, { bodyLimit: bodyLimitInBytes })), {
  name: 'forms',
});
