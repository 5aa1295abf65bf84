import { existsSync } from 'node:fs';
import sparticuz from '@sparticuz/chromium';
import { type Browser, chromium } from 'playwright-core';

const systemChromiums = [
  process.env.CHROMIUM ?? '',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];

/** For what comes of itself: it takes the time it takes, on a machine that plans beside other work too. Milliseconds. */
export const patience = 25 * 60_000;

/**
 * Path of a Chromium: the system's when there is one, else the packaged one, which unpacks itself to the temporary folder
 * the first time. Call it once before several browsers start, or they unpack over each other.
 */
export const chromiumPath = async (): Promise<string> =>
  systemChromiums.find((path) => path !== '' && existsSync(path)) ?? (await sparticuz.executablePath());

/** A real browser without a window. */
export const launchBrowser = async (): Promise<Browser> => {
  const executablePath = await chromiumPath();
  const packaged = !systemChromiums.includes(executablePath);
  return chromium.launch({
    executablePath,
    headless: true,
    args: packaged ? sparticuz.args.filter((arg) => !arg.startsWith('--single-process')) : ['--no-sandbox'],
  });
};
