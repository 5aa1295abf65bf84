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
