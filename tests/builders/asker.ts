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
  #secrets: Secrets | null = null;
  #asked = 0;

  constructor(app: Asked, tokenOf: (who: string) => string) {
    this.#app = app;
    this.#tokenOf = tokenOf;
  }

  async ask(who: string, { method, url }: Route, body: Readonly<Record<string, string>> = {}) {
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
