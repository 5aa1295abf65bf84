import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import type { Demo } from './demo.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export interface WatchedPage {
  readonly page: Page;
  /** What the page complained about: errors of its script and of the browser. */
  readonly complaints: string[];
}

/** A page of a browser whose complaints are collected. */
export const watchedPage = async (context: BrowserContext): Promise<WatchedPage> => {
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (said) => {
    // The browser itself reports the status of a page that does not exist.
    if (said.type() === 'error' && !said.text().includes('404')) complaints.push(said.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  return { page, complaints };
};

export interface Visit extends WatchedPage {
  close(): Promise<void>;
}

/** A fresh visitor on a page of the demo household. */
export const visitDemo = async (
  browser: Browser,
  demo: Demo,
  path: string,
  options: BrowserContextOptions = {},
): Promise<Visit> => {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const { page, complaints } = await watchedPage(context);
  await page.goto(demo.address + path, { waitUntil: 'load' });
  return { page, complaints, close: () => context.close() };
};

interface AxeFinding {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
}

/** Runs axe in the page through the debugger, which the page's own policy does not bind. */
export const axeFindings = async (page: Page): Promise<string[]> => {
  if (!(await page.evaluate<boolean>("'axe' in window"))) await page.evaluate(axe);
  const found = await page.evaluate<readonly AxeFinding[]>(
    "axe.run(document, { resultTypes: ['violations'] }).then((result) => result.violations)",
  );
  return found.flatMap(({ id, nodes }) =>
    nodes.map((node) => `${id}: ${node.html.slice(0, 160)} ${node.failureSummary}`),
  );
};

/** Pages of a PDF. */
export const pagesOnPaper = (pdf: Buffer): number =>
  pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;

/** Words of the page that a button, a field or a fold lies over: nobody can read them. What stays in place while the page moves is left out. */
export const coveredWords = (page: Page): Promise<readonly string[]> =>
  page.evaluate<readonly string[]>(`(() => {
    const styles = (element) => {
      const all = [];
      for (let one = element; one; one = one.parentElement) all.push(getComputedStyle(one));
      return all;
    };
    const isSeen = (element) =>
      element.checkVisibility() &&
      styles(element).every(
        ({ position, clipPath, opacity }) =>
          position !== 'fixed' && position !== 'sticky' && clipPath === 'none' && opacity !== '0',
      );
    const controls = [...document.querySelectorAll('main :is(button, .button, select, summary, input:not([type=hidden]))')]
      .filter(isSeen)
      .map((control) => ({ control, box: control.getBoundingClientRect() }));
    const covered = [];
    const texts = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) {
      const { data, parentElement } = texts.currentNode;
      if (data.trim() === '' || !isSeen(parentElement)) continue;
      const range = document.createRange();
      range.selectNodeContents(texts.currentNode);
      for (const box of range.getClientRects())
        for (const { control, box: over } of controls) {
          const wide = Math.min(box.right, over.right) - Math.max(box.left, over.left);
          const high = Math.min(box.bottom, over.bottom) - Math.max(box.top, over.top);
          if (wide > 4 && high > 4 && !control.contains(parentElement))
            covered.push(data.trim().slice(0, 40) + ' under ' + (control.textContent || control.name));
        }
    }
    return covered;
  })()`);
