import type { FastifyReply, FastifyRequest } from 'fastify';
import fp from 'fastify-plugin';
import type { HouseholdId } from '../../../shared/ids.ts';
import { ShelfwardError } from '../../../shared/problems.ts';
import { dateInZone } from '../../../shared/week.ts';
import type { StoredHousehold } from '../../../src/household/household.ts';
import { readingOf, usReading } from '../../../views/words/reading.ts';
import { type ConnectedThing, interfaceAddress, mayThing, thingOf } from '../../access/connected-things.ts';
import { type FactorStanding, factorStanding } from '../../access/factor-requirement.ts';
import { hasMembers, isClosed } from '../../access/members.ts';
import { isThingNeed, may, type Need, type Role } from '../../access/roles.ts';
import { needOf } from '../../access/route-needs.ts';
import { type Person, personOf } from '../../access/sign-ins.ts';
import { fittingHousehold, visibleHouseholds } from '../../queries/household/household.ts';
import { readCookie, setCookie } from './own-cookies.ts';
import { seeHousehold } from './whose-rows.ts';

/** Thrown when a page needs a household and none has been set up. */
export class NoHousehold extends ShelfwardError {
  constructor() {
    super('no-household', 'expected a household in the database, found none');
  }
}

/** Thrown when a member asks for what the role does not allow. */
export class NotAllowed extends ShelfwardError {
  constructor() {
    super('not-allowed', 'expected a role that may do this');
  }
}

/** Thrown when a request to the interface shows no access token that opens anything, or one whose thing may only read. */
export class TokenRefused extends ShelfwardError {
  readonly shown: 'none' | 'unknown' | 'reads only';
  constructor(shown: 'none' | 'unknown' | 'reads only') {
    super('token-refused', `expected an access token that may do this, found ${shown}`);
    this.shown = shown;
  }
}

/** A route as it was added, and what it needs; null where nothing says so. */
export interface ServedRoute {
  readonly method: string;
  readonly url: string;
  readonly needs: Need | null;
}

const found = new WeakMap<FastifyRequest, StoredHousehold>();

const choiceLastsMs = 366 * 24 * 60 * 60_000;

/** From now on this browser looks at that household; the cookie only ever chooses among those it may see. */
export const chooseHousehold = (reply: FastifyReply, id: HouseholdId): FastifyReply =>
  setCookie(reply, 'household', id, choiceLastsMs);

const standing = new WeakMap<FastifyRequest, Standing>();

/** Whom a request comes from, and which households that person may look at. */
interface Standing {
  readonly person: Person | null;
  readonly visible: readonly StoredHousehold[];
  /** What may be done in the household of the request; an open household belongs to whoever sits at the machine. */
  readonly role: Role | null;
  readonly factor: FactorStanding;
  readonly thing?: ConnectedThing;
}

/**
 * Finds whose year this request is about and what may be done there. Households come from the sign-in, and on this
 * machine alone from those that have no owner yet; the cookie only chooses among them. Every query and record works for
 * that one household. `request.household` throws for a request outside of one, so that no query can run without one.
 */
export default fp(
  async (app) => {
    app.decorateRequest('household', {
      getter() {
        const household = found.get(this);
        if (household === undefined) throw new NoHousehold();
        return household;
      },
    });
    app.decorateRequest('reading', {
      getter() {
        const household = found.get(this);
        return household === undefined ? usReading : readingOf(household, this.today);
      },
    });
    app.decorateRequest('today', {
      getter() {
        return dateInZone(app.now(), found.get(this)?.timeZone ?? 'UTC');
      },
    });
    app.decorateRequest('person', {
      getter() {
        return standing.get(this)?.person ?? null;
      },
    });
    app.decorateRequest('role', {
      getter() {
        return standing.get(this)?.role ?? null;
      },
    });
    app.decorateRequest('factorStanding', {
      getter() {
        return standing.get(this)?.factor ?? null;
      },
    });
    app.decorateRequest('thing', {
      getter() {
        return standing.get(this)?.thing ?? null;
      },
    });
    app.decorateRequest('visibleHouseholds', {
      getter() {
        return standing.get(this)?.visible ?? [];
      },
    });

    const served: ServedRoute[] = [];
    app.decorate('servedRoutes', served);
    app.addHook('onRoute', (route) => {
      const methods = [route.method].flat();
      served.push(...methods.map((method) => ({ method, url: route.url, needs: needOf(method, route.url) })));
      const [method = 'GET'] = methods;
      route.config = { ...route.config, needs: needOf(method, route.url) ?? 'own' };
    });

    app.addHook('onRequest', async (request, reply) => {
      if (standsAlone(request.url)) return;
      if (isOfInterface(request)) return letThingIn(request);
      const token = readCookie(request, 'sign-in');
      const person = token === undefined ? null : await personOf(app.db, token, app.now());
      const seen = await visibleHouseholds(app.db, {
        ids: [...(person?.roleIn.keys() ?? [])],
        open: !app.beyondLoopback,
      });
      const visible = seen.map(({ household }) => household);
      const anyClosed = seen.some(({ isOpen }) => !isOpen) || (await hasMembers(app.db));
      const asked = readCookie(request, 'household');
      const household =
        visible.find(({ id }) => id === asked) ??
        visible.find(({ id }) => person?.roleIn.has(id)) ??
        visible.find(({ isDemo }) => !isDemo || !anyClosed);
      const belongsToAll = seen.some((one) => one.household === household && one.isOpen);
      const role =
        household === undefined ? null : belongsToAll ? 'owner' : (person?.roleIn.get(household.id) ?? null);
      const factor =
        person === null
          ? null
          : await factorStanding(app.db, person, { rule: app.factorRule, now: app.now() });
      standing.set(request, { person, visible, role, factor });
      if (household !== undefined) found.set(request, household);

      const needs = request.is404 ? 'anyone' : (request.routeOptions.config.needs ?? 'own');
      if (needs === 'anyone') return;
      const mustSignIn = person === null && (app.beyondLoopback || (role === null && anyClosed));
      if (mustSignIn && !(needs === 'person' && !app.beyondLoopback)) return reply.redirect('/sign-in', 303);
      if (factor === 'now' && !isOwnPage(request.url)) return reply.redirect(toSetUpFactor, 303);
      if (needs === 'person') return;
      if (household !== undefined) seeHousehold(request, household.id);
      if (role !== null && !may(role, needs)) throw new NotAllowed();
    });
  },
  { name: 'household', dependencies: ['cookies'] },
);

/** By what the route is, and by how the address is written: neither way round is a page's sign-in looked at. */
export const isOfInterface = ({ url, routeOptions }: FastifyRequest): boolean =>
  url.startsWith(`${interfaceAddress}/`) ||
  (routeOptions.url ?? '').startsWith(`${interfaceAddress}/`) ||
  isThingNeed(routeOptions.config.needs);

/** The household is that of the access token, whoever else may be signed in in the same browser. */
async function letThingIn(request: FastifyRequest): Promise<void> {
  const { db, now, beyondLoopback } = request.server;
  const needs = request.is404 ? 'anyone' : request.routeOptions.config.needs;
  if (needs === 'anyone') return;
  const { authorization } = request.headers;
  if (authorization === undefined) throw new TokenRefused('none');
  const token = /^Bearer +([\w.~+/-]+=*) *$/i.exec(authorization)?.[1];
  const shown = token === undefined ? null : await thingOf(db, token, now());
  if (shown === null) throw new TokenRefused('unknown');
  const { thing } = shown;
  const household = fittingHousehold(shown.household);
  // A household without an owner is for whoever sits at the machine, and so is what was connected to it.
  if (beyondLoopback && !(await isClosed(db, household.id))) throw new TokenRefused('unknown');
  seeHousehold(request, household.id);
  standing.set(request, { person: null, visible: [household], role: null, factor: null, thing });
  found.set(request, household);
  if (!isThingNeed(needs) || !mayThing(thing, needs)) throw new TokenRefused('reads only');
}

/** Where a second factor is set up, and the worker of a device knows that nothing else is answered. */
const toSetUpFactor = '/people/self?said=needed#factor';

/** The one page of somebody who has to set a second factor up before anything else. */
const isOwnPage = (url: string): boolean => /^\/people\/self(?:[/?]|$)/.test(url);

/** Addresses that are about no household. */
const standsAlone = (url: string): boolean =>
  url.startsWith('/assets/') || url === '/health' || url === '/ready';
