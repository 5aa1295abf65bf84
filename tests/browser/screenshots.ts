import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser } from 'playwright-core';
import { launchBrowser } from './browser.ts';
import { openDemo } from './demo.ts';
import { pagesOfDemo } from './pages-of-demo.ts';

// Takes every page of the demo household at three widths, light and dark, into ./screenshots, to be looked at by a person.
// `npm run screenshots` takes all; `npm run screenshots -- year shelf` only pages whose name holds one of the words.

const folder = resolve(import.meta.dirname, '../../screenshots');

const widths = [360, 768, 1440] as const;
const schemes = ['light', 'dark'] as const;

const wanted = process.argv.slice(2);
const chosen = pagesOfDemo.filter(
  ({ name }) => wanted.length === 0 || wanted.some((word) => name.includes(word)),
);

const take = async (browser: Browser, address: string): Promise<void> => {
  for (const scheme of schemes) {
    for (const width of widths) {
      const context = await browser.newContext({
        viewport: { width, height: width < 600 ? 780 : 900 },
        colorScheme: scheme,
        reducedMotion: 'reduce',
      });
      const page = await context.newPage();
      for (const { name, path } of chosen) {
        const answer = await page.goto(`${address}${path}`, { waitUntil: 'networkidle' });
        await page.evaluate('document.fonts.ready');
        const file = `${name}-${width}-${scheme}.png`;
        await page.screenshot({ path: join(folder, file), fullPage: true });
        const wide = await page.evaluate<number>('document.documentElement.scrollWidth');
        console.log(
          `${answer?.status() ?? 0} ${file}${wide > width ? ` is ${wide - width} px wider than the screen` : ''}`,
        );
      }
      await context.close();
    }
  }
};

mkdirSync(folder, { recursive: true });
const demo = await openDemo();
const browser = await launchBrowser();
await take(browser, demo.address);
await browser.close();
await demo.close();
