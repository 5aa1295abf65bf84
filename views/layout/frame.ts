import type { Reading } from '../words/reading.ts';
import type { RunningClock } from './running-clocks.tsx';

export type Section =
  | 'week'
  | 'year'
  | 'shelf'
  | 'targets'
  | 'harvest'
  | 'buying'
  | 'canning'
  | 'stages'
  | 'kitchen'
  | 'notices'
  | 'look-back'
  | 'safety'
  | 'print'
  | 'items'
  | 'search'
  | 'words'
  | 'none';

export interface AssetUrls {
  readonly css: string;
  /** Besides, on the canning day and its sheet alone. */
  readonly canningCss: string;
  /** Besides, where seasons, answers to a glut, or a year and its costs are held against each other. */
  readonly comparedCss: string;
  /** Besides, where the shelf is counted: item by item, or on the sheet at the pantry door. */
  readonly paperCss: string;
  /** Besides, where a household is set up. */
  readonly startCss: string;
  /** Besides, where the year is drawn: on its pages and on those of an item. */
  readonly yearCss: string;
  readonly htmx: string;
  readonly clock: string;
  readonly link: string;
  readonly icon: string;
  readonly textFont: string;
  readonly titleFont: string;
}

/** A message at the top of a page: what was just done, or why it was not. */
export interface Message {
  readonly tone: 'done' | 'problem' | 'note';
  readonly text: string;
  readonly action?: { readonly words: string; readonly href: string };
}

/** What every page stands in; filled once per request, passed to each page as `frame`. */
export interface Frame {
  readonly reading: Reading;
  readonly assets: AssetUrls;
  readonly householdName: string | null;
  /** Whose shelf the pages show and who looks at them, for what waits on the device; empty when nobody is signed in. */
  readonly householdId: string | null;
  readonly personId: string;
  readonly isDemo: boolean;
  /** The name of whoever is signed in; null on a machine without accounts. */
  readonly signedInAs: string | null;
  readonly openNotices: number;
  /** Canner loads whose clock runs, or whose time was up a while ago. */
  readonly clocks: readonly RunningClock[];
  readonly message: Message | null;
}
