import helmet from '@fastify/helmet';
import fp from 'fastify-plugin';

/** Only what this server itself sends may run, style or load; nothing inline. */
export default fp(
  async (app) =>
    void (await app.register(helmet, {
      contentSecurityPolicy: {
        useDefaults: false,
        directives: {
          defaultSrc: ["'none'"],
          scriptSrc: ["'self'"],
          styleSrc: ["'self'"],
          fontSrc: ["'self'"],
          imgSrc: ["'self'"],
          connectSrc: ["'self'"],
          manifestSrc: ["'self'"],
          formAction: ["'self'"],
          frameAncestors: ["'none'"],
          baseUri: ["'none'"],
        },
      },
      // Served on the loopback address or behind a TLS proxy, which sets this header itself.
      strictTransportSecurity: false,
      referrerPolicy: { policy: 'same-origin' },
    })),
  { name: 'headers' },
);
