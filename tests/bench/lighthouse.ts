import sparticuz from '@sparticuz/chromium';
import { launch } from 'chrome-launcher';
import lighthouse, { type Flags } from 'lighthouse';
import { chromiumPath } from '../browser/browser.ts';
import { openDemo } from '../browser/demo.ts';

// Accessibility, best practices, SEO and performance of ten pages, on the mobile profile that Lighthouse brings:
// `npm run bench:lighthouse`. Prints the figures and what keeps a category from its aim; ends with 1 when one is missed.

const pages = [
  ['This week', '/'],
  ['The year', '/year'],
  ['Shelf', '/shelf'],
  ['Harvest', '/harvest'],
  ['Shopping', '/buying'],
  ['Canning day', '/canning-day'],
  ['How much', '/targets'],
  ['Look back', '/look-back'],
  ['Places', '/shelf/places'],
  ['Glut', '/glut?crop=peaches&amount=40&unit=lb'],
] as const;

const aims = { performance: 98, accessibility: 100, 'best-practices': 100, seo: 100 } as const;
type Category = keyof typeof aims;
const categories = Object.keys(aims) as Category[];

const demo = await openDemo();
const chromePath = await chromiumPath();
const chrome = await launch({
  chromePath,
  chromeFlags: [
    ...sparticuz.args.filter(
      (flag) => !flag.startsWith('--single-process') && !flag.startsWith('--headless'),
    ),
    '--headless=shell',
    '--no-sandbox',
  ],
});

let missed = 0;
for (const [name, path] of pages) {
  const flags: Flags = { port: chrome.port, output: 'json', logLevel: 'error', onlyCategories: categories };
  const result = await lighthouse(`${demo.address}${path}`, flags);
  if (!result) throw new Error(`expected a report for ${path}`);
  const { lhr } = result;
  const score = (category: Category): number => Math.round((lhr.categories[category]?.score ?? 0) * 100);
  const shown = (audit: string): string => lhr.audits[audit]?.displayValue ?? 'unknown';
  console.log(
    `${name.padEnd(11)} ${categories.map((category) => `${category} ${score(category)}`).join('   ')}   ` +
      `first paint ${shown('first-contentful-paint')}, largest ${shown('largest-contentful-paint')}, ` +
      `blocked ${shown('total-blocking-time')}, shift ${shown('cumulative-layout-shift')}, ${shown('total-byte-weight')}`,
  );
  for (const category of categories) {
    if (score(category) >= aims[category]) continue;
    missed += 1;
    console.log(`  ${category} ${score(category)}, wanted ${aims[category]}:`);
    for (const { id, weight } of lhr.categories[category]?.auditRefs ?? []) {
      const audit = lhr.audits[id];
      if (weight > 0 && audit?.score !== null && (audit?.score ?? 1) < 0.95)
        console.log(`    ${id}: ${audit?.title} ${audit?.displayValue ?? ''}`);
    }
  }
}

await chrome.kill();
await demo.close();
process.exitCode = missed === 0 ? 0 : 1;
