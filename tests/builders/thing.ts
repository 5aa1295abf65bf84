import type { FastifyInstance } from 'fastify';
import { connectThing, type ThingScope } from '../../server/access/connected-things.ts';
import type { Database } from '../../server/database/database.ts';
import type { HouseholdId } from '../../shared/ids.ts';
import type { CalendarDate } from '../../shared/week.ts';
import { worked } from './outcomes.ts';
import type { Asked } from './visitor.ts';

/** What the interface answered. */
export interface ThingAnswer {
  readonly status: number;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly type: string;
  readonly json: Readonly<Record<string, unknown>>;
}

export interface Wish {
  readonly name?: string;
  readonly may?: ThingScope;
  readonly endsOn?: CalendarDate | null;
  readonly madeBy?: string | null;
}

/** Something of a household's own that asks the interface, with nothing but its access token. */
export class Thing {
  readonly token: string;
  readonly #app: Asked;
  #written = 0;

  constructor(app: Asked, token: string) {
    this.#app = app;
    this.token = token;
  }

  static async of(
    app: FastifyInstance,
    db: Database,
    household: HouseholdId,
    wish: Wish = {},
  ): Promise<Thing> {
    const { name = 'Fridge display', may = 'read and take', endsOn = null, madeBy = null } = wish;
    const by = { personId: madeBy, now: app.now() };
    return new Thing(app, worked(await connectThing(db, household, { name, may, endsOn }, by)).token);
  }

  read(path: string, headers: Readonly<Record<string, string>> = {}): Promise<ThingAnswer> {
    return this.#ask('GET', path, undefined, headers);
  }

  /** Without a key of its own, under one that was never used. */
  write(path: string, body?: unknown, key?: string | null): Promise<ThingAnswer> {
    this.#written += 1;
    const named = key === undefined ? `write-${String(this.#written).padStart(6, '0')}` : key;
    return this.#ask('POST', path, body, named === null ? {} : { 'idempotency-key': named });
  }

  async #ask(
    method: 'GET' | 'POST',
    path: string,
    body: unknown,
    headers: Readonly<Record<string, string>>,
  ): Promise<ThingAnswer> {
    const answer = await this.#app.inject({
      method,
      url: `/api/v1${path}`,
      headers: {
        authorization: `Bearer ${this.token}`,
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        ...headers,
      },
      ...(body === undefined ? {} : { payload: typeof body === 'string' ? body : JSON.stringify(body) }),
    });
    return {
      status: answer.statusCode,
      headers: answer.headers,
      type: String(answer.headers['content-type'] ?? ''),
      json: answer.body === '' ? {} : (JSON.parse(answer.body) as Readonly<Record<string, unknown>>),
    };
  }
}
