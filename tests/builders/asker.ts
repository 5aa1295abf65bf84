import type { Route } from './two-households.ts';
import { type Asked, cookieSet } from './visitor.ts';

interface Secrets {
  readonly csrf: string;
  readonly form: string;
}

/** Sends requests straight to addresses with the token of a form, as somebody would who has read the pages' source. */
export class Asker {
  readonly #app: Asked;
  readonly #tokenOf: (who: string) => string;
  readonly #accessToken: string | null;
  #secrets: Secrets | null = null;
  #asked = 0;

  /** With the access token of a connected thing, the interface is asked as that thing would, whoever else asks. */
  constructor(app: Asked, tokenOf: (who: string) => string, accessToken: string | null = null) {
    this.#app = app;
    this.#tokenOf = tokenOf;
    this.#accessToken = accessToken;
  }

  async ask(who: string, { method, url }: Route, body: Readonly<Record<string, string>> = {}) {
    if (this.#accessToken !== null && url.startsWith('/api/')) return this.#asThing({ method, url }, body);
    const cookies = { 'sign-in': this.#tokenOf(who) };
    if (method === 'GET') return this.#app.inject({ method, url, cookies });
    const { csrf, form } = await this.secrets();
    this.#asked += 1;
    return this.#app.inject({
      method,
      url,
      cookies: { ...cookies, form },
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams({
        _csrf: csrf,
        key: `asked-${String(this.#asked).padStart(8, '0')}`,
        ...body,
      }).toString(),
    });
  }

  #asThing({ method, url }: Route, body: Readonly<Record<string, string>>) {
    const authorization = `Bearer ${this.#accessToken}`;
    if (method === 'GET') return this.#app.inject({ method, url, headers: { authorization } });
    this.#asked += 1;
    return this.#app.inject({
      method,
      url,
      headers: { authorization, 'idempotency-key': `asked-${String(this.#asked).padStart(8, '0')}` },
      payload: { ...body },
    });
  }

  /** The token of forms and the cookie that belongs to it; one pair serves every form of a browser. */
  async secrets(): Promise<Secrets> {
    if (this.#secrets !== null) return this.#secrets;
    const page = await this.#app.inject({ method: 'GET', url: '/sign-in' });
    const csrf = /name="_csrf" value="([^"]+)"/.exec(page.body)?.[1] ?? '';
    const form = cookieSet(page, 'form') ?? '';
    this.#secrets = { csrf, form };
    return this.#secrets;
  }
}
