import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser } from 'playwright-core';
import { launchBrowser } from './browser.ts';
import { openDemo } from './demo.ts';
import { pagesOfDemo } from './pages-of-demo.ts';

// Takes every page of the demo household at three widths, light and dark, into ./screenshots, to be looked at by a person.
// `npm run screenshots` takes all; `npm run screenshots -- year shelf` only pages whose name holds one of the words;
// `npm run screenshots -- readme` takes the pictures of the README into views/pictures.

const folder = resolve(import.meta.dirname, '../../screenshots');

const widths = [360, 768, 1440] as const;
const schemes = ['light', 'dark'] as const;

const readmeFolder = resolve(import.meta.dirname, '../../views/pictures');

/** What the README shows: a whole screen of a page, or one part of it. */
const readmePictures = [
  { name: 'this-week', path: '/', width: 1180, height: 900, part: null },
  { name: 'the-year', path: '/year', width: 1180, height: 1100, part: null },
  { name: 'target', path: '/targets/green-beans', width: 1180, height: 900, part: null },
  { name: 'shelf-on-a-phone', path: '/shelf', width: 390, height: 780, part: null },
  {
    name: 'glut-on-a-phone',
    path: '/glut?crop=peaches&amount=40&unit=lb',
    width: 390,
    height: 780,
    part: null,
  },
] as const;

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

const takeForReadme = async (browser: Browser, address: string): Promise<void> => {
  for (const { name, path, width, height, part } of readmePictures) {
    const context = await browser.newContext({ viewport: { width, height }, reducedMotion: 'reduce' });
    const page = await context.newPage();
    await page.goto(`${address}${path}`, { waitUntil: 'networkidle' });
    await page.evaluate('document.fonts.ready');
    const file = { path: join(readmeFolder, `${name}.jpg`), type: 'jpeg', quality: 82 } as const;
    if (part === null) await page.screenshot(file);
    else {
      const box = await page.locator(part).boundingBox();
      if (box === null) throw new Error(`expected ${part} on ${path}`);
      const clip = { x: box.x - 20, y: box.y - 8, width: box.width + 40, height: box.height + 16 };
      await page.screenshot({ ...file, fullPage: true, clip });
    }
    console.log(file.path);
    await context.close();
  }
};

const isForReadme = wanted.includes('readme');
mkdirSync(isForReadme ? readmeFolder : folder, { recursive: true });
const demo = await openDemo();
const browser = await launchBrowser();
await (isForReadme ? takeForReadme : take)(browser, demo.address);
await browser.close();
await demo.close();
