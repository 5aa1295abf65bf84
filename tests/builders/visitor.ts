import type { InjectOptions } from 'fastify';
import { attribute, plainText } from './html-text.ts';

/** A page as it came, and the way to send one of its forms as a browser without script would. */
export interface Answer {
  readonly status: number;
  readonly body: string;
  readonly location: string;
}

export interface Submission {
  /** The form's action, or its start; the first form that has it is sent. */
  readonly form: string;
  /** What the person typed over what stood in the fields. */
  readonly fill?: Readonly<Record<string, string>>;
  /** As htmx sends it, for the part alone. */
  readonly asPart?: boolean;
}

/** Whoever answers: the app itself, or a server in a process of its own. */
export interface Asked {
  inject(options: InjectOptions): Promise<{
    readonly statusCode: number;
    readonly body: string;
    readonly headers: Readonly<Record<string, string | readonly string[] | number | undefined>>;
  }>;
}

/** What an answer sets a cookie to; null where it leaves it. */
export function cookieSet(
  { headers }: Pick<Awaited<ReturnType<Asked['inject']>>, 'headers'>,
  name: string,
): string | null {
  const set = [headers['set-cookie'] ?? []].flat().map(String);
  const own = set.find((cookie) => cookie.startsWith(`${name}=`));
  return own === undefined ? null : (own.slice(name.length + 1).split(';')[0] ?? '');
}

/** Somebody in front of the pages: keeps the cookies, reads pages, sends their forms. */
export class Visitor {
  readonly #app: Asked;
  readonly #cookies = new Map<string, string>();
  readonly #browser: string;
  readonly #headers: Readonly<Record<string, string>>;

  /** With cookies from elsewhere, somebody who is signed in already; `browser` is how the browser names itself, `headers` what a proxy on the way adds. */
  constructor(
    app: Asked,
    cookies: Readonly<Record<string, string>> = {},
    browser = '',
    headers: Readonly<Record<string, string>> = {},
  ) {
    this.#app = app;
    this.#browser = browser;
    this.#headers = headers;
    for (const [name, value] of Object.entries(cookies)) this.#cookies.set(name, value);
  }

  async open(url: string): Promise<Answer> {
    return this.#send({ method: 'GET', url });
  }

  /** Opens a link whose secret stands behind `#`, as somebody without script does: it is pasted into the page it leads to. */
  async openLink(link: string): Promise<Answer> {
    const { pathname, hash } = new URL(link);
    if (hash === '') throw new Error(`expected a link with a secret behind #; found ${link}`);
    return this.submitOn(pathname, { form: pathname, fill: { link } });
  }

  /** Opens the page, fills in the form and sends it. */
  async submitOn(url: string, submission: Submission): Promise<Answer> {
    const page = await this.open(url);
    return this.submit(page, submission);
  }

  async submit(page: Answer, { form, fill = {}, asPart = false }: Submission): Promise<Answer> {
    const { action, values } = formOf(page.body, form);
    return this.#send({
      method: 'POST',
      url: action,
      headers: {
        'content-type': 'application/x-www-form-urlencoded',
        ...(asPart ? { 'hx-request': 'true', 'hx-request-type': 'partial' } : {}),
      },
      payload: new URLSearchParams({ ...values, ...fill }).toString(),
    });
  }

  /** Sends values to an address with the token a page carried, whatever forms the page has. */
  async post(page: Answer, url: string, values: Readonly<Record<string, string>> = {}): Promise<Answer> {
    const csrf = /name="_csrf" value="([^"]+)"/.exec(page.body)?.[1] ?? '';
    return this.#send({
      method: 'POST',
      url,
      headers: { 'content-type': 'application/x-www-form-urlencoded' },
      payload: new URLSearchParams({ _csrf: csrf, key: 'posted-at-an-address', ...values }).toString(),
    });
  }

  /** Sends one file with some fields, as a form with a file does. */
  async upload(url: string, fields: Readonly<Record<string, string>>, content: string): Promise<Answer> {
    const boundary = 'a-boundary-of-the-visitor';
    const parts = Object.entries(fields).map(
      ([name, value]) =>
        `--${boundary}\r\ncontent-disposition: form-data; name="${name}"\r\n\r\n${value}\r\n`,
    );
    const file = `--${boundary}\r\ncontent-disposition: form-data; name="file"; filename="list.csv"\r\ncontent-type: text/csv\r\n\r\n${content}\r\n`;
    return this.#send({
      method: 'POST',
      url,
      headers: { 'content-type': `multipart/form-data; boundary=${boundary}` },
      payload: `${parts.join('')}${file}--${boundary}--\r\n`,
    });
  }

  async #send(options: InjectOptions): Promise<Answer> {
    const response = await this.#app.inject({
      ...options,
      headers: {
        ...this.#headers,
        ...(this.#browser === '' ? {} : { 'user-agent': this.#browser }),
        ...options.headers,
        cookie: [...this.#cookies].map(([name, value]) => `${name}=${value}`).join('; '),
      },
    });
    const set = response.headers['set-cookie'];
    for (const cookie of Array.isArray(set) ? set : set === undefined ? [] : [set]) {
      const [name = '', value = ''] = (cookie.split(';')[0] ?? '').split('=');
      this.#cookies.set(name, value);
    }
    return {
      status: response.statusCode,
      body: response.body,
      location: String(response.headers.location ?? ''),
    };
  }
}

interface FoundForm {
  readonly action: string;
  readonly values: Readonly<Record<string, string>>;
}

/** What a browser would send of the first form whose action begins so, no button pressed. */
export function formOf(html: string, actionStart: string): FoundForm {
  const forms = html.match(/<form\b[\s\S]*?<\/form>/g) ?? [];
  const own =
    forms.find((form) => attribute(form, 'action') === actionStart) ??
    forms.find((form) => (attribute(form, 'action') ?? '').startsWith(actionStart));
  if (own === undefined) {
    const known = forms.map((form) => attribute(form, 'action')).join(', ');
    throw new Error(`expected a form sent to ${actionStart}; found ${known}`);
  }
  const values: Record<string, string> = {};
  for (const tag of own.match(/<input\b[^>]*>/g) ?? []) {
    const name = attribute(tag, 'name');
    const isChoice = ['radio', 'checkbox'].includes(attribute(tag, 'type') ?? '');
    if (name !== null && (!isChoice || attribute(tag, 'checked') !== null))
      values[name] = attribute(tag, 'value') ?? '';
  }
  for (const list of own.match(/<select\b[\s\S]*?<\/select>/g) ?? []) {
    const name = attribute(list, 'name');
    const options = list.match(/<option\b[^>]*>/g) ?? [];
    const chosen = options.find((option) => attribute(option, 'selected') !== null) ?? options[0];
    if (name !== null && chosen !== undefined) values[name] = attribute(chosen, 'value') ?? '';
  }
  return { action: attribute(own, 'action') ?? '', values };
}

/** The link that a page shows this once. */
export const linkShown = ({ body }: Answer): string =>
  plainText(/<code>([^<]+)<\/code>/.exec(body)?.[1] ?? '');

/** The words of a page without its tags, for looking up sentences. */
export const wordsOf = (html: string): string =>
  plainText(html.replace(/<(script|style)\b[\s\S]*?<\/\1>/g, ' ').replace(/<[^>]+>/g, ' ')).replace(
    /\s+/g,
    ' ',
  );
