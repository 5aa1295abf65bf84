import './app-context.ts';
import fastify, { type FastifyInstance, type FastifyServerOptions } from 'fastify';
import ipaddr from 'ipaddr.js';
import type { ReferenceTables } from '../shared/schemas/reference/tables.ts';
import type { FactorRule } from './access/factor-requirement.ts';
import { passingSeedKeys, type SeedKeys } from './access/seed-keys.ts';
import type { MailForPages, PlanningForPages } from './app-context.ts';
import { holdsApart } from './database/apart/adapters.ts';
import { ofEverybody } from './database/apart/whose-rows.ts';
import type { Database } from './database/database.ts';
import { routes } from './pages/index.ts';
import assets from './plugins/app/assets.ts';
import csrf from './plugins/app/csrf.ts';
import errors from './plugins/app/errors.ts';
import health from './plugins/app/health.ts';
import household from './plugins/app/household.ts';
import ownName from './plugins/app/own-name.ts';
import pages from './plugins/app/pages.ts';
import securityLog from './plugins/app/security-log.ts';
import signInQueue from './plugins/app/sign-in-queue.ts';
import whoseRows from './plugins/app/whose-rows.ts';
import compression from './plugins/external/compression.ts';
import cookies from './plugins/external/cookies.ts';
import forms, { bodyLimitInBytes } from './plugins/external/forms.ts';
import headers from './plugins/external/headers.ts';
import rateLimit from './plugins/external/rate-limit.ts';
import type { SteadyClock } from './steady-clock.ts';

export interface AppParts {
  readonly db: Database;
  readonly reference: ReferenceTables;
  /** The instant now, milliseconds since 1970 UTC; the only clock the pages know. */
  readonly now: () => number;
  /** A clock that is never set, beside it: loads of a canner are timed by both. */
  readonly steady?: SteadyClock;
  /** Makes plans in the background; without it pages show the plans there are. */
  readonly planJob?: PlanningForPages;
  /** Sends letters; without it pages say that none are. */
  readonly mail?: MailForPages | null;
  readonly logger?: FastifyServerOptions['logger'];
  /** Requests one address may make in a minute before it is asked to wait. */
  readonly requestsPerMinute?: number;
  /** Where other machines reach it, through a proxy on this one that speaks TLS: `https://pantry.example`. */
  readonly publicAddress?: string;
  /** How many steps of 30 seconds before and after now a code of a second factor may belong to; 0 unless the operator says 1. */
  readonly codeSteps?: number;
  /** Of whom a second factor is asked, beside the members of households that ask for it. */
  readonly factorRule?: FactorRule;
  /** Opens the seeds of second factors; without it, keys that end with the process. */
  readonly seedKeys?: SeedKeys;
  /** A request that has not come in whole by then is given up. */
  readonly requestTimeoutMs?: number;
}

/** Long enough for the largest file over a slow line. */
const usualRequestTimeoutMs = 120_000;

/** The proxy is on this machine, or at the other end of a local socket, which has no address; further ones are not believed. */
const fromProxy = (address: string | undefined): boolean =>
  address === undefined || (ipaddr.isValid(address) && ipaddr.process(address).range() === 'loopback');

/** The whole web app, ready to take requests but not listening. */
export const buildApp = async ({
  db,
  reference,
  now,
  steady,
  planJob,
  mail,
  logger,
  requestsPerMinute,
  publicAddress = '',
  codeSteps = 0,
  factorRule = 'by-household',
  seedKeys = passingSeedKeys(),
  requestTimeoutMs = usualRequestTimeoutMs,
}: AppParts): Promise<FastifyInstance> => {
  const beyondLoopback = publicAddress !== '';
  const app = fastify({
    logger: logger ?? false,
    bodyLimit: bodyLimitInBytes,
    trustProxy: beyondLoopback ? fromProxy : false,
    requestTimeout: requestTimeoutMs,
    http: {
      requestTimeout: requestTimeoutMs,
      connectionsCheckingInterval: Math.min(30_000, requestTimeoutMs),
    },
  });
  app.decorate('beyondLoopback', beyondLoopback);
  app.decorate('publicAddress', publicAddress);
  app.decorate('codeSteps', codeSteps);
  app.decorate('factorRule', factorRule);
  app.decorate('seedKeys', seedKeys);
  app.decorate('db', db);
  app.decorate('reference', reference);
  app.decorate('now', now);
  app.decorate('steady', steady ?? null);
  app.decorate('planJob', planJob === undefined ? null : everybodys(db, planJob));
  app.decorate('mail', (mail && { ...mail, look: () => ofEverybody(db, () => mail.look()) }) ?? null);

  for (const plugin of [cookies, forms, headers, compression]) await app.register(plugin);
  await app.register(rateLimit, requestsPerMinute === undefined ? {} : { requestsPerMinute });
  for (const plugin of [
    whoseRows,
    signInQueue,
    ownName,
    household,
    securityLog,
    assets,
    health,
    csrf,
    pages,
    errors,
  ])
    await app.register(plugin);
  for (const route of routes) await app.register(route);
  return app;
};

/** Plans are made in turn for all households, whoever asks. */
const everybodys = (db: Database, job: PlanningForPages): PlanningForPages =>
  holdsApart(db)
    ? {
        state: (...asked) => ofEverybody(db, () => job.state(...asked)),
        start: (...asked) => ofEverybody(db, () => job.start(...asked)),
        ask: (...asked) => ofEverybody(db, () => job.ask(...asked)),
        cancel: (...asked) => ofEverybody(db, () => job.cancel(...asked)),
        settled: (...asked) => ofEverybody(db, () => job.settled(...asked)),
      }
    : job;
