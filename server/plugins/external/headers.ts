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
          objectSrc: ["'none'"],
        },
      },
      // On the loopback address there is no TLS; behind a proxy that speaks it, browsers are told to stay with it.
      strictTransportSecurity: app.beyondLoopback
        ? { maxAge: 365 * 24 * 60 * 60, includeSubDomains: true }
        : false,
      referrerPolicy: { policy: 'same-origin' },
      // Headers that no browser of today reads: some 150 bytes with each of a page's answers, on a phone in a cellar.
      xDownloadOptions: false,
      xPermittedCrossDomainPolicies: false,
      xXssProtection: false,
    })),
  { name: 'headers' },
);
