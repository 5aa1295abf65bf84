import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { beginSignIn } from '../../server/access/sign-ins.ts';
import { Asker } from '../builders/asker.ts';
import { type PageForm, postFormsOf } from '../builders/form-fields.ts';
import { filled, medlarLane, type TwoHouseholds, twoHouseholds } from '../builders/two-households.ts';
import { cookieSet } from '../builders/visitor.ts';
import { launchBrowser } from './browser.ts';

// Payload shapes written for this program: markup, attributes, addresses, half-open tags, templates and ends of the places text
// can stand in. Each would set a mark on the window, or ask for `/ran-by-markup`, if anything of it ran.
const attempts = [
  '<script>window.ran=1</script>',
  '"><img src=x onerror="window.ran=1">',
  "' autofocus onfocus='window.ran=1' x='",
  '</title><svg onload=window.ran=1>',
  '</textarea><iframe srcdoc="<script>parent.ran=1</script>">',
  '<a href="javascript:window.ran=1">jam</a>',
  '<div hx-get="/ran-by-markup" hx-trigger="load" hx-on:click="window.ran=1">',
  '--></style></script><body onpageshow=window.ran=1><link rel=stylesheet href=/ran-by-markup>',
  '&lt;script&gt;window.ran=1&lt;/script&gt;',
  '{{constructor.constructor("window.ran=1")()}}',
] as const;
/** Walked one by one; `npm run bench:attempts` walks every one, which takes minutes. All together are tried below in any case. */
const walked = process.env.EVERY_ATTEMPT === '1' ? attempts : [attempts[4]];
/** Of any attempt, how it would stand in a page that did not escape it. */
const unescaped =
  /<script>window\.ran|<img src=x|<svg onload|<iframe srcdoc|<a href="javascript:|<div hx-get="\/ran|<body onpageshow|<link rel=stylesheet/;

/** What is left of any attempt, escaped or not. */
const traces = /ran=1|ran-by-markup/;

/** Names that addresses carry behind the question mark. */
const queryNames = [
  'q',
  'find',
  'for',
  'said',
  'saved',
  'day',
  'by',
  'time',
  'people',
  'burners',
  'food',
  'style',
  'jar',
  'rows',
  'count',
  'item',
  'week',
];

/** What the other fields of a form say, so that they are in nobody's way. */
const likely = (name: string): string => {
  if (/passphrase|present|code|^other/i.test(name)) return '';
  if (/(On|Date)$|Since|From|Until|^on|^(date|since|from|until|day)$|dayInWeek/.test(name))
    return '2026-08-17';
  if (/name|note|reason|address|words/i.test(name)) return 'Plum butter';
  return /minutes/i.test(name) ? '30' : '2';
};

let both: TwoHouseholds;
let address: string;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let csrf: string;
let ownerToken: string;
let asker: Asker;
const violations: string[] = [];

beforeAll(async () => {
  both = await twoHouseholds();
  address = await both.app.listen({ host: '127.0.0.1', port: 0 });
  browser = await launchBrowser();
  context = await browser.newContext();
  const cookie = (name: string, value: string) => ({ name, value, url: address });
  asker = new Asker(both.app, () => ownerToken);
  const secrets = await asker.secrets();
  csrf = secrets.csrf;
  ownerToken = both.tokenOf.get('medlar-owner') ?? '';
  await context.addCookies([
    cookie('sign-in', ownerToken),
    cookie('household', medlarLane),
    cookie('form', secrets.form),
  ]);
  page = await context.newPage();
  page.on('console', (message) => {
    if (/Content.Security.Policy/i.test(message.text())) violations.push(`${page.url()}: ${message.text()}`);
  });
  page.on('dialog', (dialog) => {
    violations.push(`${page.url()}: a dialog, ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('request', (request) => {
    // An address that was asked for on purpose names it behind the question mark or within a longer name.
    if (new URL(request.url()).pathname === '/ran-by-markup')
      violations.push(`${page.url()}: asked for ${request.url()}`);
  });
});
afterAll(async () => {
  await browser?.close();
  await both?.close();
});

/** Every page the owner can open, with the household's own ids. */
const pages = (): readonly string[] => [
  ...new Set(
    both.app.servedRoutes.flatMap(({ method, url }) =>
      method === 'GET' && !/\.(csv|json|js|ics|txt|ico|webmanifest)$|^\/assets|^\/health|^\/ready/.test(url)
        ? [filled(url, (kind) => both.medlar[kind] ?? '1')]
        : [],
    ),
  ),
];

const look = async (url: string): Promise<string> => {
  await page.goto(`${address}${url}`, { waitUntil: 'load' });
  expect(await page.evaluate('window.ran'), url).toBeUndefined();
  return page.content();
};

interface TextForm extends PageForm {
  readonly texts: readonly string[];
}

/** Forms in which something can be typed, one for each kind of address. */
async function formsToTypeIn(): Promise<readonly TextForm[]> {
  const forms = new Map<string, TextForm>();
  for (const url of pages()) {
    const answer = await asker.ask('medlar-owner', { method: 'GET', url });
    for (const form of postFormsOf(answer.body)) {
      const texts = form.fields.flatMap(({ name, kind }) => (kind === 'text' ? [name] : []));
      const isNumbered = form.action.replaceAll(/\/[^/]*\d[^/]*(?=\/|$)/g, '/x');
      const shape = `${isNumbered} ${texts.join(' ')}`;
      if (texts.length > 0 && !forms.has(shape)) forms.set(shape, { ...form, texts });
    }
  }
  return [...forms.values()];
}

/** Some forms sign somebody else in, or out; whoever types goes on as the owner. */
async function signInAgain(): Promise<void> {
  ownerToken = await beginSignIn(both.db, 'medlar-owner', both.app.now());
  await context.addCookies([{ name: 'sign-in', value: ownerToken, url: address }]);
}

let sent = 0;
const valuesOf = (form: TextForm, typed: (name: string) => string | null): Record<string, string> => {
  sent += 1;
  const values: Record<string, string> = { _csrf: csrf, key: `attempt-${sent}` };
  for (const { name, kind, values: known } of form.fields) {
    const [present = ''] = known;
    const chosen = kind === 'text' ? likely(name) : /Id$|Kind$|^crop$/.test(name) ? (known[1] ?? '') : '';
    if (kind !== 'tick') values[name] = typed(name) ?? (present === '' ? chosen : present);
  }
  return values;
};

/** Sends a form without a browser; answers what came back, and whether it was taken. */
async function send(
  action: string,
  fields: Record<string, string>,
): Promise<{ readonly body: string; readonly took: boolean }> {
  const answer = await asker.ask('medlar-owner', { method: 'POST', url: action }, fields);
  if (cookieSet(answer, 'sign-in') !== null) await signInAgain();
  return { body: answer.body, took: answer.statusCode < 400 };
}

/** Sends a form as the browser does, so that its answer is shown. */
async function submitInBrowser(action: string, fields: Record<string, string>): Promise<void> {
  const arrived = page.waitForEvent('load');
  await page.evaluate(
    ({ to, values }) => {
      const form = document.createElement('form');
      form.method = 'post';
      form.action = to;
      for (const [name, value] of Object.entries(values)) {
        const field = document.createElement('input');
        field.name = name;
        field.value = value;
        form.append(field);
      }
      document.body.append(form);
      form.submit();
    },
    { to: `${address}${action}`, values: fields },
  );
  await arrived;
}

test('in normal use no page breaks the policy of what may run', async () => {
  for (const url of pages()) await look(url);

  expect(pages().length).toBeGreaterThan(40);
  expect(violations).toEqual([]);
});

let forms: readonly TextForm[] = [];
/** Fields that took markup for what it says; the others want a number or a day and refuse any. */
const takesText = new Set<string>();
const shownIn = new Set<string>();
let typed = 0;

test('the forms in which something can be typed are found, and which fields keep what they are given', async () => {
  forms = await formsToTypeIn();
  for (const form of forms) {
    for (const text of form.texts) {
      const fields = valuesOf(form, (name) => (name === text ? attempts[0] : null));
      const { body, took } = await send(form.action, fields);
      expect(body, `${form.action} ${text}`).not.toMatch(unescaped);
      if (took) takesText.add(`${form.action} ${text}`);
    }
  }

  expect(forms.map(({ action }) => action)).toEqual(
    expect.arrayContaining(['/sign-in', '/people/self/passphrase', '/kitchen/household', '/start']),
  );
  expect(forms.flatMap(({ texts }) => texts).length).toBeGreaterThan(120);
  expect(takesText.size).toBeGreaterThanOrEqual(10);
});

test.each(walked)(
  '%s in every text field of every form runs nothing, in its answer and wherever it is shown later',
  async (attempt) => {
    for (const form of forms) {
      // All fields at once, which mostly is refused and shown again …
      const all = valuesOf(form, (name) => (form.texts.includes(name) ? attempt : null));
      expect((await send(form.action, all)).body, form.action).not.toMatch(unescaped);
      typed += form.texts.length;
      // … and each that keeps what it is given by itself, so that it does get into the file.
      for (const text of form.texts.filter((name) => takesText.has(`${form.action} ${name}`))) {
        const one = valuesOf(form, (name) => (name === text ? attempt : null));
        expect((await send(form.action, one)).body, `${form.action} ${text}`).not.toMatch(unescaped);
      }
    }
    for (const url of pages()) {
      const { body } = await asker.ask('medlar-owner', { method: 'GET', url });
      expect(body, url).not.toMatch(unescaped);
      // Only where something of an attempt stands is there anything that could run.
      if (!traces.test(body)) continue;
      shownIn.add(url);
      await look(url);
    }

    expect(violations).toEqual([]);
  },
);

test('all attempts at once in every field run nothing in the answer a browser shows', async () => {
  for (const form of forms) {
    const everything = attempts.join(' ');
    await submitInBrowser(
      form.action,
      valuesOf(form, (name) => (form.texts.includes(name) ? everything : null)),
    );
    expect(await page.evaluate('window.ran'), form.action).toBeUndefined();
    await signInAgain();
  }

  const kept = await both.db.selectFrom('item').select('name').execute();
  expect(kept.some(({ name }) => attempts.some((attempt) => name === attempt))).toBe(true);
  expect(typed).toBeGreaterThan(100 * walked.length);
  expect(shownIn.size).toBeGreaterThan(10);
  expect(violations).toEqual([]);
});

test('every attempt in every address runs nothing', async () => {
  let shown = 0;
  for (const attempt of walked) {
    const query = new URLSearchParams(queryNames.map((name) => [name, attempt])).toString();
    for (const { method, url } of both.app.servedRoutes) {
      if (method !== 'GET' || url.startsWith('/assets')) continue;
      const named = filled(url, () => encodeURIComponent(attempt));
      const own = `${filled(url, (kind) => both.medlar[kind] ?? '1')}?${query}`;
      for (const asked of url.includes(':') ? [own, named] : [own]) {
        const answer = await asker.ask('medlar-owner', { method, url: asked });
        const isPage = String(answer.headers['content-type']).startsWith('text/html');
        if (!isPage) continue;
        expect(answer.body, asked).not.toMatch(unescaped);
        if (traces.test(answer.body)) {
          shown += 1;
          await look(asked);
        }
      }
    }
  }

  expect(shown).toBeGreaterThan(walked.length);
  expect(violations).toEqual([]);
});
