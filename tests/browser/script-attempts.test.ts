import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchBrowser } from './browser.ts';
import { type Demo, openDemo } from './demo.ts';

// Payload shapes written for this program: markup, attributes, addresses and half-open tags, each of which would set a mark on
// the window if anything of it ran.
const attempts = [
  '<script>window.ran=1</script>',
  '"><img src=x onerror="window.ran=1">',
  "' autofocus onfocus='window.ran=1' x='",
  '</title><svg onload=window.ran=1>',
  '<a href="javascript:window.ran=1">jam</a>',
  '<div hx-on:click="window.ran=1" hx-get="/" hx-trigger="load">',
] as const;

const places = [
  '/',
  '/year',
  '/shelf',
  '/targets',
  '/harvest',
  '/buying',
  '/canning-day',
  '/kitchen',
  '/notices',
  '/look-back',
  '/labels',
  '/calendar',
  '/people',
  '/jobs',
];

let demo: Demo;
let browser: Browser;
beforeAll(async () => {
  demo = await openDemo();
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await demo?.close();
});

test('markup typed into every text field runs nothing, and no page breaks the policy of what may run', async () => {
  const page = await browser.newPage();
  const violations: string[] = [];
  page.on('console', (message) => {
    if (/Content.Security.Policy/i.test(message.text())) violations.push(message.text());
  });
  page.on('dialog', (dialog) => {
    violations.push(`a dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  let filled = 0;

  for (const place of places) {
    await page.goto(`${demo.address}${place}`);
    const forms = await page.$$eval('form[method="post"]', (all) =>
      all.map((form) => ({
        action: form.getAttribute('action') ?? '',
        texts: [...form.querySelectorAll('input[type="text"], input[type="search"], textarea')].map(
          (field) => field.getAttribute('name') ?? '',
        ),
        values: Object.fromEntries(
          [...new FormData(form as HTMLFormElement).entries()].map(([name, value]) => [name, String(value)]),
        ),
      })),
    );
    const seen = new Set<string>();
    for (const [at, { action, texts, values }] of forms.entries()) {
      const shape = action.replaceAll(/\/[a-z0-9-]+(?=\/|$)/g, '/x');
      if (texts.length === 0 || seen.has(shape) || action.startsWith('/people')) continue;
      seen.add(shape);
      const attempt = attempts[(at + filled) % attempts.length] ?? attempts[0];
      const typed = Object.fromEntries(texts.map((name) => [name, attempt]));
      filled += texts.length;
      const arrived = page.waitForNavigation({ waitUntil: 'load' });
      await page.evaluate(
        ({ to, fields }) => {
          const form = document.createElement('form');
          form.method = 'post';
          form.action = to;
          for (const [name, value] of Object.entries(fields)) {
            const field = document.createElement('input');
            field.name = name;
            field.value = value;
            form.append(field);
          }
          document.body.append(form);
          form.submit();
        },
        { to: action, fields: { ...values, ...typed } },
      );
      await arrived;
      expect(await page.evaluate('window.ran'), `${place} ${action}`).toBeUndefined();
      await page.goto(`${demo.address}${place}`);
      expect(await page.evaluate('window.ran'), place).toBeUndefined();
    }
  }
  for (const attempt of attempts) {
    const text = encodeURIComponent(attempt);
    for (const address of [
      `/shelf?find=${text}`,
      `/search?for=${text}`,
      `/search?q=${text}`,
      `/kitchen?saved=${text}`,
      `/year/${text}`,
      `/process-times?food=${text}`,
    ]) {
      await page.goto(`${demo.address}${address}`);
      expect(await page.evaluate('window.ran'), address).toBeUndefined();
    }
  }

  expect(filled).toBeGreaterThan(10);
  expect(violations).toEqual([]);
}, 300_000);
