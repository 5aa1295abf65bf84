import type { ComponentType } from 'preact';
import type { ReferenceTables } from '../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../shared/week.ts';
import type { StoredHousehold } from '../src/household/household.ts';
import type { Frame, Message } from '../views/layout/frame.ts';
import type { FormKeys } from '../views/parts/form.tsx';
import type { Reading } from '../views/words/reading.ts';
import type { ConnectedThing } from './access/connected-things.ts';
import type { FactorRule, FactorStanding } from './access/factor-requirement.ts';
import type { Need, Role } from './access/roles.ts';
import type { SecurityEventKind } from './access/security-events.ts';
import type { SeedKeys } from './access/seed-keys.ts';
import type { Person } from './access/sign-ins.ts';
import type { Database } from './database/database.ts';
import type { PlanJob } from './jobs/plan-job.ts';
import type { AssetShelf } from './plugins/app/assets.ts';
import type { ServedRoute } from './plugins/app/household.ts';
import type { AboutEvent } from './plugins/app/security-log.ts';
import type { SteadyClock } from './steady-clock.ts';

/** The planner as the pages see it: what it is doing, and how to ask it for a new plan and to stop. */
export type PlanningForPages = Pick<PlanJob, 'state' | 'start' | 'ask' | 'cancel' | 'settled'>;

/** The mail server as the pages see it: which one, and how to have the letters looked at now. */
export interface MailForPages {
  /** Its name and port; never the name and password it is entered with. */
  readonly server: string;
  readonly from: string;
  look(): void;
}

// What the app's own plugins add to Fastify's objects.
declare module 'fastify' {
  interface FastifyInstance {
    db: Database;
    reference: ReferenceTables;
    now: () => number;
    /** Beside it, one that is never set; null where nobody asks for it. */
    steady: SteadyClock | null;
    planJob: PlanningForPages | null;
    /** Null while no mail server is named: then letters are not sent. */
    mail: MailForPages | null;
    assets: AssetShelf;
    /** Reached from other machines: only members see a household, and cookies travel over TLS alone. */
    beyondLoopback: boolean;
    /** Where others reach the program, `https://pantry.example`; empty on this machine alone. */
    publicAddress: string;
    /** How many steps of 30 seconds before and after now a code may belong to. */
    codeSteps: number;
    /** Of whom a second factor is asked, beside the members of households that ask for it. */
    factorRule: FactorRule;
    /** Opens the seeds of second factors. */
    seedKeys: SeedKeys;
    /** Every route there is, with what it needs. */
    servedRoutes: readonly ServedRoute[];
  }
  interface FastifyContextConfig {
    /** What a route asks of whoever sends the request. */
    needs?: Need;
  }
  interface FastifyRequest {
    /** Who is signed in; null on this machine without an account. */
    person: Person | null;
    /** What may be done in the household of this request. */
    role: Role | null;
    /** Whether a second factor has to be set up, and until when that may wait. */
    factorStanding: FactorStanding;
    /** The households this request may choose among. */
    visibleHouseholds: readonly StoredHousehold[];
    /** The connected thing that sent it with its access token; null for what comes from a page. */
    thing: ConnectedThing | null;
    /** The household of this request. */
    household: StoredHousehold;
    /** How the household reads numbers, units, dates and weeks. */
    reading: Reading;
    /** Today in the household's time zone. */
    today: CalendarDate;
    /** Writes down what happened to an account. */
    noteSecurity(kind: SecurityEventKind, about?: AboutEvent): Promise<void>;
  }
  interface FastifyReply {
    /** What the page stands in; ask once per page. */
    frame(message?: Message | null): Promise<Frame>;
    /** CSRF token and a fresh idempotency key for one form. */
    formKeys(): FormKeys;
    /** Sends a whole document. */
    page<Props extends object>(component: ComponentType<Props>, props: Props, status?: number): FastifyReply;
    /** Sends the part of a page that htmx swaps. */
    part<Props extends object>(component: ComponentType<Props>, props: Props, status?: number): FastifyReply;
  }
}
