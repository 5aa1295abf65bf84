import { bounds } from '../../shared/bounds.ts';
import { counted } from '../../shared/counting.ts';
import { addDays, addMonths, type CalendarDate } from '../../shared/week.ts';
import type { Item } from '../household/item.ts';

/**
 * Days of best quality of sealed home-canned food kept at 50-70 °F: one year. University of California ANR, Master Food
 * Preservers of Orange County, Canning ("no more than 12 months"), and National Center for Home Food Preservation, Storing
 * Home-Canned Jams and Jellies (one year, 50-70 °F); both read. Rows `hc_general` and `hc_general_nchfp` of the shelf-life table.
 */
export const publishedHomeCannedDays = 365;

/** How an item's published life answers to a warmer place. */
export type WarmthRule = 'canned' | 'dried' | 'none';

interface PublishedPair {
  /** Up to this temperature the published life holds; °F. */
  readonly holdsToF: number;
  readonly warmerF: number;
  /** Life at `warmerF` divided by life at `holdsToF`. */
  readonly share: number;
}

/**
 * Shortening by warmth, computed from pairs of published lives, not itself published.
 *
 * canned: apples, sauce, pie filling and apricots keep 24 months at 70 °F and 12 at 90 °F (Utah State University Extension,
 * Food storage; read), so life halves in 20 °F. dried: home-dried fruit keeps 12 months at 60 °F and 6 at 80 °F
 * (University of Georgia, Preserving Food: Drying Fruits and Vegetables; read).
 */
const publishedPairs: Readonly<Record<'canned' | 'dried', PublishedPair>> = {
  canned: { holdsToF: 70, warmerF: 90, share: 12 / 24 },
  dried: { holdsToF: 60, warmerF: 80, share: 6 / 12 },
};

/** USDA, Complete Guide to Home Canning, Agriculture Information Bulletin 539, rev. 1994: store no jar above 95 °F. Read. */
const warmestF = 95;
/** Freezing point of water; a jar that freezes may lose its seal. */
const coldestF = 32;

export type StorageFlag = 'too warm to store' | 'may freeze';

export interface BestQuality {
  /** Last day of best quality. */
  readonly until: CalendarDate;
  /** Days by which warmth shortened the published life, 0 or more. */
  readonly daysLostToWarmth: number;
  readonly flag: StorageFlag | null;
  /** One sentence for the person: where the date comes from. */
  readonly because: string;
}

export interface Keeping {
  readonly putUpOn: CalendarDate;
  /** Published days of best quality; `publishedHomeCannedDays` for home-canned food. */
  readonly publishedDays: number;
  readonly warmthRule: WarmthRule;
  /** Usual temperature of the place, °F; null when nobody knows it: the published life then stands. */
  readonly storageF: number | null;
}

/**
 * Best-quality date of a sealed unit, a date about taste, colour and texture only.
 *
 * days = published days · share^((storage °F - holds-to °F) / (warmer °F - holds-to °F)) where it is warmer than the
 * published life holds for, rounded down; otherwise the published days: a cool place lengthens nothing. Above 95 °F and below
 * 32 °F the place is flagged. Throws RangeError when the published life is not 1 day or more.
 * Example: put up on 2026-08-17 and kept at 80 °F: 365 · 0.5^(10/20) = 258 days, until 2027-05-02.
 */
export function bestQualityOf(keeping: Keeping): BestQuality {
  const { putUpOn, publishedDays, storageF, warmthRule } = keeping;
  if (!(publishedDays >= 1)) {
    throw new RangeError(
      `bestQuality: expected a published life of 1 day or more, got ${publishedDays} days`,
    );
  }
  const published = Math.floor(publishedDays);
  const days = Math.max(1, Math.floor(publishedDays * warmthFactor(warmthRule, storageF)));
  const lost = published - days;
  const flag = warmthRule === 'none' ? null : storageFlag(storageF);
  return {
    until: addDays(putUpOn, days),
    daysLostToWarmth: lost,
    flag,
    because: [origin(published, lost, keeping), flagWords(flag)].filter((words) => words !== '').join(' '),
  };
}

/** Share of the published life that is left at this temperature, above 0, at most 1. */
export function warmthFactor(rule: WarmthRule, storageF: number | null): number {
  if (rule === 'none' || storageF === null) return 1;
  const { holdsToF, warmerF, share } = publishedPairs[rule];
  return Math.min(1, share ** ((storageF - holdsToF) / (warmerF - holdsToF)));
}

function storageFlag(storageF: number | null): StorageFlag | null {
  if (storageF === null) return null;
  if (storageF > warmestF) return 'too warm to store';
  return storageF < coldestF ? 'may freeze' : null;
}

/** Months after which a household throws away what is left of a sealed lot, unless it says otherwise. Judged, no source. */
const usualDiscardCeilingMonths = 18;

/** Day from which what is left of a lot is thrown away: the household's own ceiling, counted from the day it was put up. */
export const discardOn = (putUpOn: CalendarDate, ceilingMonths = usualDiscardCeilingMonths): CalendarDate =>
  addMonths(putUpOn, ceilingMonths);

/**
 * The latest date of best quality that can be said of a lot: for what is put up the published life after the day it was made, for
 * what is bought what its maker prints, which may be years ahead.
 */
export const latestBestQuality = (
  { kind, bestQualityDays }: Pick<Item, 'kind' | 'bestQualityDays'>,
  madeOn: CalendarDate,
): CalendarDate => addDays(madeOn, kind === 'staple' ? bounds.bestQualityDays.to : bestQualityDays);

/**
 * Last day on which what is left of a lot is kept: its days in the refrigerator, for anything else that is put up the household's own
 * limit in months from the day it was made. What is bought to be eaten has none: null.
 */
export function keptUntil(
  item: Pick<Item, 'kind' | 'keeping'>,
  lot: { readonly madeOn: CalendarDate; readonly bestQualityUntil: CalendarDate },
  ceilingMonths: number,
): CalendarDate | null {
  if (item.kind === 'staple') return null;
  return item.keeping === 'refrigerated'
    ? lot.bestQualityUntil
    : addDays(discardOn(lot.madeOn, ceilingMonths), -1);
}

/** Is it past the last day on which the household keeps it? */
export const isKeptTooLong = (
  { keptUntil: last }: { readonly keptUntil: CalendarDate | null },
  asOf: CalendarDate,
): boolean => last !== null && last < asOf;

function origin(published: number, lost: number, { warmthRule, storageF }: Keeping): string {
  if (lost === 0 || warmthRule === 'none') return `Published best quality: ${counted(published, 'day')}.`;
  const { holdsToF, warmerF, share } = publishedPairs[warmthRule];
  return (
    `Published best quality is ${counted(published, 'day')} at up to ${holdsToF} °F; at ${storageF} °F this is ${counted(lost, 'day')} shorter, ` +
    `computed from a published life that falls to ${Math.round(share * 100)}% between ${holdsToF} and ${warmerF} °F.`
  );
}

function flagWords(flag: StorageFlag | null): string {
  switch (flag) {
    case 'too warm to store':
      return `Above ${warmestF} °F quality is lost within weeks to months: find a cooler place.`;
    case 'may freeze':
      return `Below ${coldestF} °F jars may freeze, soften the food and lose their seal: find a warmer place.`;
    case null:
      return '';
  }
}
