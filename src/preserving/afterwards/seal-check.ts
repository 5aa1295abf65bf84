import { DateTime } from 'luxon';
import { counted } from '../../../shared/counting.ts';
import type { FailedSealChoice } from '../../household/batch-result.ts';
import { type Citation, cite } from '../citation.ts';
import { civilHours } from '../day/civil-spans.ts';

const hourMs = 3_600_000;
/** USDA Complete Guide 1, p1-25 (check after 12 to 24 hours) and p1-26 (reprocess within 24 hours). */
const checkAfterHours = { least: 12, most: 24 } as const;
const reprocessWithinHours = 24;

/** When the seals of jars taken out of the canner at an instant are to be checked. Instants are UTC milliseconds. */
export const sealCheckWindow = (unloadedAt: number): { readonly from: number; readonly to: number } => ({
  from: unloadedAt + checkAfterHours.least * hourMs,
  to: unloadedAt + checkAfterHours.most * hourMs,
});

export interface SealCheck {
  /** Both inside civil hours of the household's zone, from not before 12 hours and to not after 24 hours. UTC milliseconds. */
  readonly from: number;
  readonly to: number;
  /** How many of the loads, in the order in which they came out, are checked then. */
  readonly loads: number;
}

/**
 * When the seals of a day's loads are looked at: all at once if one civil hour lies 12 to 24 hours after every load, else
 * in as few rounds as that takes. A check that would fall into the night is moved to the morning, 24 hours at most after
 * the load. No load: no check. Instants are UTC milliseconds.
 */
export const sealChecks = (unloadedAt: readonly number[], timeZone: string): readonly SealCheck[] => {
  const checks: SealCheck[] = [];
  let first: number | null = null;
  for (const at of unloadedAt.toSorted((one, other) => one - other)) {
    const current = checks.at(-1);
    const joined: SealCheck | null =
      current === undefined || first === null ? null : civilCheck(first, at, current.loads + 1, timeZone);
    if (joined !== null) checks[checks.length - 1] = joined;
    else {
      first = at;
      const alone = civilCheck(at, at, 1, timeZone);
      checks.push(alone ?? { ...sealCheckWindow(at), loads: 1 });
    }
  }
  return checks;
};

/** Null when no civil hour lies 12 hours after the last load and within 24 of the first. */
const civilCheck = (first: number, last: number, loads: number, timeZone: string): SealCheck | null => {
  const from = morningAfterNight(DateTime.fromMillis(sealCheckWindow(last).from, { zone: timeZone }));
  const to = eveningBeforeNight(DateTime.fromMillis(sealCheckWindow(first).to, { zone: timeZone }));
  return from <= to ? { from: from.toMillis(), to: to.toMillis(), loads } : null;
};

const morningAfterNight = (at: DateTime): DateTime => {
  const morning = at.startOf('day').set({ hour: civilHours.from });
  if (at < morning) return morning;
  return at <= at.startOf('day').set({ hour: civilHours.to }) ? at : morning.plus({ days: 1 });
};

const eveningBeforeNight = (at: DateTime): DateTime => {
  const evening = at.startOf('day').set({ hour: civilHours.to });
  if (at > evening) return evening;
  return at >= at.startOf('day').set({ hour: civilHours.from }) ? at : evening.minus({ days: 1 });
};

/** How a seal is tested: press, tap, look. */
export const sealTests: readonly { readonly text: string; readonly source: Citation }[] = [
  'Press the middle of the lid: it must not spring back.',
  'Tap it with a spoon: a sealed lid rings high, an unsealed one sounds dull.',
  'Hold it level with the eye: the lid is curved in.',
].map((text) => ({ text, source: cite('USDA-G1', 'p1-25') }));

export interface FailedSealAdvice {
  readonly choice: FailedSealChoice;
  readonly text: string;
  readonly source: Citation;
}

export interface FailedSeal {
  /** Hours from the end of processing to now. */
  readonly hoursSinceProcessed: number;
  /** Whether the tested recipe has a hot pack, which reprocessing needs. */
  readonly hotPackPrinted: boolean;
  /** Days an opened jar of this food keeps cold. */
  readonly keepColdDays: number;
}

/**
 * What can be done with a jar whose lid did not seal, found at the check within 24 hours of processing: reprocess with a
 * new lid for the whole time, freeze, or refrigerate. Later than that it is no longer this case: the food is discarded.
 *
 * Sources: USDA Complete Guide 1, p1-26; University of Nebraska and Kansas State University extension pages (hot pack).
 */
export const failedSealAdvice = (jar: FailedSeal): readonly FailedSealAdvice[] => {
  if (!(jar.hoursSinceProcessed >= 0 && jar.hoursSinceProcessed <= reprocessWithinHours)) {
    return [
      {
        choice: 'discard',
        text: 'More than 24 hours have passed since processing. Discard the food without tasting it.',
        source: cite('FSSITE-FAQ', 'reprocessing unsealed jars'),
      },
    ];
  }
  const reprocess: FailedSealAdvice = {
    choice: 'reprocess',
    text: 'Look for a nicked rim, reheat the food, fill a clean hot jar, use a new lid, and process the whole time again within 24 hours of the first processing.',
    source: cite('USDA-G1', 'p1-26'),
  };
  return [
    ...(jar.hotPackPrinted ? [reprocess] : []),
    {
      choice: 'freeze',
      text: 'Take food out until 1½ inches are free below the rim, and freeze the jar.',
      source: cite('USDA-G1', 'p1-26'),
    },
    {
      choice: 'refrigerate',
      text: `Refrigerate the jar and eat it within ${counted(jar.keepColdDays, 'day')}.`,
      source: cite('USDA-G1', 'p1-26'),
    },
  ];
};
