import { type JarSize, nominalMl } from '../../shared/jar.ts';
import type { CannerFactRow } from '../../shared/schemas/reference/canner-fact.ts';
import { type CalendarDate, daysBetween } from '../../shared/week.ts';
import { citationOf, cite, factNumber, factOf, factRange } from './citation.ts';
import { type ProcessTables, schedulesFor } from './process-lookup.ts';
import { allowed, forbidden, type Refusal, type Ruling, refusal } from './refusal.ts';
import type { Gauge, ProcessMethod, ProcessQuery, Schedule } from './schedule.ts';

/** A canner as the household owns it. */
export interface Canner {
  readonly method: ProcessMethod;
  /** Pressure canners only; `null` until it is said. */
  readonly gauge: Gauge | null;
  /** Quart jars that stand upright in it, on one layer. */
  readonly uprightQuarts: number;
  /** Volume in quarts of water; `null` where not known. Asked for smoked fish only. */
  readonly volumeQuarts?: number | null;
  /** Day of the last gauge check; `null` when never checked. */
  readonly gaugeCheckedOn: CalendarDate | null;
  /** How far the gauge read from the true pressure at that check, in psi; `null` where not known. */
  readonly gaugeOffByPsi?: number | null;
  /** Jars of a size that one load holds, where the household has counted them. */
  readonly counted?: Partial<Readonly<Record<JarSize, number>>>;
}

/** A dial gauge counts for this many days after its check. */
export const dialCheckDays = 365;

/**
 * Rules a canner itself must meet on a day: a pressure canner holds at least four upright quarts, its gauge is known, and
 * a dial gauge was checked within the 365 days before the session and read within 2 psi of true.
 *
 * Sources: USDA Complete Guide 1, p1-20 (gauge check, replacement) and p1-35 (least size).
 */
export const cannerTroubles = (
  canner: Canner,
  sessionOn: CalendarDate,
  facts: readonly CannerFactRow[],
): Refusal[] => {
  if (canner.method !== 'pressure') return [];
  const troubles: Refusal[] = [];
  const least = factOf(facts, 'pc.min_size.quart_jars_upright');
  if (canner.uprightQuarts < factNumber(facts, least.key)) {
    troubles.push(
      refusal(
        'canner-too-small',
        'canner',
        `A pressure canner must hold at least ${least.value} quart jars upright; this one holds ${canner.uprightQuarts}`,
        citationOf(least),
        'Use a larger pressure canner; a small pressure cooker heats and cools too fast for the published times.',
      ),
    );
  }
  if (canner.gauge === null) {
    troubles.push(
      refusal(
        'gauge-not-stated',
        'gauge',
        'A pressure schedule depends on the gauge, which was not stated',
        cite('USDA-G1', 'p1-20'),
        'Say whether the canner has a dial gauge or a weighted gauge.',
      ),
    );
  }
  if (canner.gauge === 'dial') troubles.push(...dialTroubles(canner, sessionOn, facts));
  return troubles;
};

const dialTroubles = (
  { gaugeCheckedOn, gaugeOffByPsi }: Canner,
  sessionOn: CalendarDate,
  facts: readonly CannerFactRow[],
): Refusal[] => {
  const interval = factOf(facts, 'pc.dial_gauge_check_interval');
  const instead = 'Have the gauge checked, many extension offices do it, or use a weighted gauge.';
  if (gaugeCheckedOn === null) {
    return [
      refusal(
        'dial-gauge-unchecked',
        'gaugeCheckedOn',
        'A dial gauge must be checked every year; no check is recorded',
        citationOf(interval),
        instead,
      ),
    ];
  }
  const age = daysBetween(gaugeCheckedOn, sessionOn);
  const troubles: Refusal[] = [];
  if (age < 0 || age > dialCheckDays) {
    troubles.push(
      refusal(
        'dial-gauge-unchecked',
        'gaugeCheckedOn',
        `A dial gauge must be checked within the ${dialCheckDays} days before the session of ${sessionOn}; the check recorded is of ${gaugeCheckedOn}`,
        citationOf(interval),
        instead,
      ),
    );
  }
  const most = factOf(facts, 'pc.dial_gauge_replace_if_off_by_more_than');
  if (Math.abs(gaugeOffByPsi ?? 0) > factNumber(facts, most.key)) {
    troubles.push(
      refusal(
        'dial-gauge-off',
        'gaugeOffByPsi',
        `A gauge off by more than ${most.value} psi must be replaced; this one was off by ${Math.abs(gaugeOffByPsi ?? 0)}`,
        citationOf(most),
        'Replace the gauge, and set aside what was canned with it since it last read true.',
      ),
    );
  }
  return troubles;
};

/**
 * The same ruling, refused where it is for a dial gauge that was not checked within 365 days of the day: for a look-up in
 * which no canner of the household is named.
 */
export const gaugeInDate = <T>(
  ruling: Ruling<T>,
  { method, gauge }: Pick<ProcessQuery, 'method' | 'gauge'>,
  gaugeCheckedOn: CalendarDate | null,
  on: CalendarDate,
  { cannerFacts: facts }: Pick<ProcessTables, 'cannerFacts'>,
): Ruling<T> => {
  if (!ruling.ok || method !== 'pressure' || gauge !== 'dial') return ruling;
  const uprightQuarts = factNumber(facts, 'pc.min_size.quart_jars_upright');
  const troubles = cannerTroubles({ method, gauge, uprightQuarts, gaugeCheckedOn }, on, facts);
  return troubles.length > 0 ? forbidden(...troubles) : ruling;
};

export type QueryForCanner = Omit<ProcessQuery, 'method' | 'gauge'>;

/** The published schedules for this canner on this day; refuses when the canner itself may not be used. */
export const schedulesInCanner = (
  tables: ProcessTables,
  query: QueryForCanner,
  canner: Canner,
  sessionOn: CalendarDate,
): Ruling<readonly [Schedule, ...Schedule[]]> => {
  const troubles = [
    ...cannerTroubles(canner, sessionOn, tables.cannerFacts),
    ...smokedFishTroubles(query, canner, tables.cannerFacts),
  ];
  if (troubles.length > 0) return forbidden(...troubles);
  return schedulesFor(tables, {
    ...query,
    method: canner.method,
    ...(canner.gauge === null ? {} : { gauge: canner.gauge }),
  });
};

const smokedFishTroubles = (
  query: QueryForCanner,
  canner: Canner,
  facts: readonly CannerFactRow[],
): Refusal[] => {
  if (query.foodKey !== 'smoked-fish') return [];
  const volume = factRange(facts, 'pc.smoked_fish.canner_volume');
  const own = canner.volumeQuarts ?? null;
  if (own !== null && own >= volume.low && own <= volume.high) return [];
  return [
    refusal(
      'smoked-fish-canner',
      'canner',
      `Smoked fish is tested only in a pressure canner of ${volume.low} to ${volume.high} quarts; this one ${own === null ? 'has no recorded volume' : `holds ${own}`}`,
      citationOf(factOf(facts, 'pc.smoked_fish.canner_volume')),
      'Use a canner of that size, or freeze the fish.',
    ),
  ];
};

/**
 * Jars of one size in one load. What the household counted wins. Otherwise, from the upright quarts: quarts as they
 * stand, pints and smaller at the low published end (8 pints in a canner of 7 quarts, and in proportion, rounded down),
 * sizes between a pint and a quart as quarts. Larger than a quart must be counted first.
 *
 * Sources: USDA Complete Guide 1, p1-17 (7 quarts, 8 to 9 pints). That jars smaller than a pint fit at least as often as
 * pints is our own inference.
 */
export const jarsPerLoad = (
  canner: Canner,
  jar: JarSize,
  facts: readonly CannerFactRow[],
): Ruling<number> => {
  const counted = canner.counted?.[jar];
  if (counted !== undefined) return allowed(counted);
  if (nominalMl[jar] > nominalMl.quart) {
    return forbidden(
      refusal(
        'jars-per-load-unknown',
        'canner',
        `No published count of ${jar} jars in a load`,
        cite('USDA-G1', 'p1-17'),
        'Count how many stand upright in the canner, 1 inch under water, and write it down for this canner.',
      ),
    );
  }
  if (nominalMl[jar] > nominalMl.pint) return allowed(canner.uprightQuarts);
  const pintsPerQuart = factRange(facts, 'bwc.load.pint').low / factNumber(facts, 'bwc.load.quart');
  return allowed(Math.floor(canner.uprightQuarts * pintsPerQuart + 1e-9));
};
