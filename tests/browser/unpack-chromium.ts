import { chromiumPath } from './browser.ts';

/** Runs once before any worker starts, so that no two of them unpack the browser over each other. */
export default async function unpackChromium(): Promise<void> {
  await chromiumPath();
}
