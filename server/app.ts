import './app-context.ts';
import fastify, { type FastifyInstance, type FastifyServerOptions } from 'fastify';
import type { ReferenceTables } from '../shared/schemas/reference/tables.ts';
import type { MailForPages, PlanningForPages } from './app-context.ts';
import type { Database } from './database/database.ts';
import assets from './plugins/app/assets.ts';
import csrf from './plugins/app/csrf.ts';
import errors from './plugins/app/errors.ts';
import health from './plugins/app/health.ts';
import household from './plugins/app/household.ts';
import ownName from './plugins/app/own-name.ts';
import pages from './plugins/app/pages.ts';
import securityLog from './plugins/app/security-log.ts';
import compression from './plugins/external/compression.ts';
import cookies from './plugins/external/cookies.ts';
import forms, { bodyLimitInBytes } from './plugins/external/forms.ts';
import headers from './plugins/external/headers.ts';
import rateLimit from './plugins/external/rate-limit.ts';
import { routes } from './routes/index.ts';

export interface AppParts {
  readonly db: Database;
  readonly reference: ReferenceTables;
  /** The instant now, milliseconds since 1970 UTC; the only clock the pages know. */
  readonly now: () => number;
  /** Makes plans in the background; without it pages show the plans there are. */
  readonly planJob?: PlanningForPages;
  /** Sends letters; without it pages say that none are. */
  readonly mail?: MailForPages | null;
  readonly logger?: FastifyServerOptions['logger'];
  /** Requests one address may make in a minute before it is asked to wait. */
  readonly requestsPerMinute?: number;
  /** Where other machines reach it, through a proxy on this one that speaks TLS: `https://pantry.example`. */
  readonly publicAddress?: string;
}

/** The whole web app, ready to take requests but not listening. */
export const buildApp = async ({
  db,
  reference,
  now,
  planJob,
  mail,
  logger,
  requestsPerMinute,
  publicAddress = '',
}: AppParts): Promise<FastifyInstance> => {
  const beyondLoopback = publicAddress !== '';
  const app = fastify({
    logger: logger ?? false,
    bodyLimit: bodyLimitInBytes,
    trustProxy: beyondLoopback ? 'loopback' : false,
  });
  app.decorate('beyondLoopback', beyondLoopback);
  app.decorate('publicAddress', publicAddress);
  app.decorate('db', db);
  app.decorate('reference', reference);
  app.decorate('now', now);
  app.decorate('planJob', planJob ?? null);
  app.decorate('mail', mail ?? null);

  for (const plugin of [cookies, forms, headers, compression]) await app.register(plugin);
  await app.register(rateLimit, requestsPerMinute === undefined ? {} : { requestsPerMinute });
  for (const plugin of [ownName, household, securityLog, assets, health, csrf, pages, errors])
    await app.register(plugin);
  for (const route of routes) await app.register(route);
  return app;
};
