import { counted } from '../../shared/counting.ts';
import { dateWords } from '../../shared/date-words.ts';
import { folded } from '../../shared/folded.ts';
import { type JarSize, nominalMl } from '../../shared/jar.ts';
import type { CannerFactRow } from '../../shared/schemas/reference/canner-fact.ts';
import { addWeeks, type CalendarDate, daysBetween, mondayOf, weekOf } from '../../shared/week.ts';
import { citationOf, cite, factNumber, factOf, factRange } from './citation.ts';
import { type ProcessTables, schedulesFor } from './lookup/process-lookup.ts';
import type { Gauge, ProcessMethod, ProcessQuery, Schedule } from './lookup/schedule.ts';
import { allowed, forbidden, type Refusal, type Ruling, refusal } from './refusal.ts';

/** Psi a dial gauge read above the true pressure at 5, 10 and 15 psi; below 0 where it read low. */
export interface GaugeOff {
  readonly at5: number;
  readonly at10: number;
  readonly at15: number;
}

/** A canner as the household owns it. */
export interface Canner {
  readonly method: ProcessMethod;
  /** Pressure canners only; `null` until it is said. */
  readonly gauge: Gauge | null;
  /** Quart jars that stand upright in it, on one layer. */
  readonly uprightQuarts: number;
  /** Volume in quarts of water; `null` where not known. Only needed for smoked fish. */
  readonly volumeQuarts?: number | null;
  /** Day of the last gauge check; `null` when never checked. */
  readonly gaugeCheckedOn: CalendarDate | null;
  /** How far the dial read from the true pressure at that check; `null` where it was not said. */
  readonly gaugeOff?: GaugeOff | null;
  /** Jars of a size that one load holds, where the household has counted them. */
  readonly counted?: Partial<Readonly<Record<JarSize, number>>>;
}

/** A dial gauge counts for this many days after its check. */
export const dialCheckDays = 365;

/** From this day on a yearly check that is not made yet is counted on; `null` where only what was recorded counts. */
export type GaugeCheckPlannedOn = CalendarDate | null;

/**
 * Whether a day has no recorded check within the 365 days before it, and one is only counted on: a check was recorded before,
 * and the day is not before the one from which the next is planned. Of a gauge that was never checked nothing is counted on.
 */
export const countsOnGaugeCheck = (
  { method, gauge, gaugeCheckedOn }: Pick<Canner, 'method' | 'gauge' | 'gaugeCheckedOn'>,
  on: CalendarDate,
  plannedOn: GaugeCheckPlannedOn,
): boolean =>
  method === 'pressure' &&
  gauge === 'dial' &&
  gaugeCheckedOn !== null &&
  plannedOn !== null &&
  on >= plannedOn &&
  daysBetween(gaugeCheckedOn, on) > dialCheckDays;

/**
 * Rules a canner itself must meet on a day: a pressure canner holds at least four upright quarts, its gauge is known, and
 * a dial gauge was checked within the 365 days before the session at 5, 10 and 15 psi. One that was more than 2 psi off
 * anywhere must be replaced. One that read high by less is refused too, until it is set or replaced: the jars would get less
 * than it shows, and the guide prints no amount to add. One that read low by up to 2 psi is used as it is: the jars get more
 * than it shows. A check without the figures says nothing of the gauge. A check that is only planned stands in for one that
 * ran out, never for one that was not made or found the gauge wrong.
 *
 * Sources: USDA Complete Guide 1, p1-20 (gauge check, replacement) and p1-35 (least size); Iowa State University Extension,
 * dial gauges (high readings under-process, low ones over-process).
 */
export const cannerTroubles = (
  canner: Canner,
  sessionOn: CalendarDate,
  facts: readonly CannerFactRow[],
  checkPlannedOn: GaugeCheckPlannedOn = null,
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
  if (canner.gauge === 'dial') troubles.push(...dialTroubles(canner, sessionOn, facts, checkPlannedOn));
  return troubles;
};

const dialTroubles = (
  canner: Canner,
  sessionOn: CalendarDate,
  facts: readonly CannerFactRow[],
  checkPlannedOn: GaugeCheckPlannedOn,
): Refusal[] => {
  const { gaugeCheckedOn, gaugeOff } = canner;
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
  if (age < 0 || (age > dialCheckDays && !countsOnGaugeCheck(canner, sessionOn, checkPlannedOn))) {
    troubles.push(
      refusal(
        'dial-gauge-unchecked',
        'gaugeCheckedOn',
        `A dial gauge must be checked within the ${counted(dialCheckDays, 'day')} before the session of ${dateWords(sessionOn)}; the check recorded is of ${dateWords(gaugeCheckedOn)}`,
        citationOf(interval),
        instead,
      ),
    );
  }
  return [...troubles, ...gaugeOffTroubles(gaugeOff ?? null, facts)];
};

/** What is wrong with how far off a dial gauge was at its last check; empty when it may be used. */
export const gaugeOffTroubles = (gaugeOff: GaugeOff | null, facts: readonly CannerFactRow[]): Refusal[] => {
  const most = factOf(facts, 'pc.dial_gauge_replace_if_off_by_more_than');
  if (gaugeOff === null)
    return [
      refusal(
        'gauge-figures-missing',
        'gaugeOff',
        'A check says how many psi the dial was off at 5, 10 and 15 psi, and nothing is written down of the last one',
        citationOf(most),
        'Write the three figures down once, on the kitchen page under Canners and gauges: 0 where it read true. Not known: have it checked again, or use a weighted gauge.',
      ),
    ];
  const off = [gaugeOff.at5, gaugeOff.at10, gaugeOff.at15];
  const worst = Math.max(...off.map(Math.abs));
  if (!(worst <= factNumber(facts, most.key)))
    return [
      refusal(
        'dial-gauge-off',
        'gaugeOff',
        `A gauge off by more than ${most.value} psi at 5, 10 or 15 psi must be replaced; this one was off by ${worst}`,
        citationOf(most),
        'Replace the gauge, and set aside what was canned with it since it last read true.',
      ),
    ];
  if (off.some((psi) => psi > 0))
    return [
      refusal(
        'dial-gauge-reads-high',
        'gaugeOff',
        `The dial read ${Math.max(...off)} psi too high, so that jars get less pressure than it shows`,
        cite('ISU-GAUGE', 'dial gauges tested annually'),
        'Have it set or replaced, then write the new check down; or use a weighted gauge.',
      ),
    ];
  return [];
};

/**
 * The same ruling, refused where it is for a dial gauge that was not checked within 365 days of the day: for a look-up in
 * which no canner of the household is named. That the check found it true stands with the answer as a condition (`lookUpConditions`).
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
  const gaugeOff = { at5: 0, at10: 0, at15: 0 };
  const troubles = cannerTroubles({ method, gauge, uprightQuarts, gaugeCheckedOn, gaugeOff }, on, facts);
  return troubles.length > 0 ? forbidden(...troubles) : ruling;
};

/** What an answer rests on where no canner of the household is named: said with it, in sentences. */
export const lookUpConditions = (
  {
    method,
    gauge,
    foodKey,
  }: {
    readonly method: ProcessQuery['method'];
    readonly gauge?: ProcessQuery['gauge'] | undefined;
    readonly foodKey: string;
  },
  facts: readonly CannerFactRow[],
): readonly string[] => {
  if (method !== 'pressure') return [];
  const volume = factRange(facts, 'pc.smoked_fish.canner_volume');
  return [
    `The canner holds at least ${factNumber(facts, 'pc.min_size.quart_jars_upright')} quart jars upright.`,
    ...(gauge === 'dial'
      ? [
          'The check found that the dial does not read too high at 5, 10 and 15 psi, and not more than 2 psi too low.',
        ]
      : []),
    ...(folded(foodKey) === 'smoked-fish'
      ? [`The canner holds ${volume.low} to ${volume.high} quarts of water.`]
      : []),
  ];
};

export type QueryForCanner = Omit<ProcessQuery, 'method' | 'gauge'>;

/** The published schedules for this canner on this day; refuses when the canner itself may not be used. */
export const schedulesInCanner = (
  tables: ProcessTables,
  query: QueryForCanner,
  canner: Canner,
  sessionOn: CalendarDate,
  checkPlannedOn: GaugeCheckPlannedOn = null,
): Ruling<readonly [Schedule, ...Schedule[]]> => {
  const troubles = [
    ...cannerTroubles(canner, sessionOn, tables.cannerFacts, checkPlannedOn),
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
  if (folded(query.foodKey) !== 'smoked-fish') return [];
  const volume = factRange(facts, 'pc.smoked_fish.canner_volume');
  const own = canner.volumeQuarts ?? null;
  if (own !== null && own >= volume.low && own <= volume.high) return [];
  return [
    refusal(
      'smoked-fish-canner',
      'canner',
      `Smoked fish is tested only in a pressure canner of ${volume.low} to ${volume.high} quarts; this one ${own === null ? 'has no recorded volume' : `holds ${own}`}`,
      citationOf(factOf(facts, 'pc.smoked_fish.canner_volume')),
      own === null
        ? 'Write its volume down on the kitchen page under Canners and gauges, use a canner of that size, or freeze the fish.'
        : 'Use a canner of that size, or freeze the fish.',
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

/** A plan counts on a check from the week after this one: it takes a way to somebody who can do it. */
export const gaugeCheckPlannedOn = (asOf: CalendarDate): CalendarDate => mondayOf(addWeeks(weekOf(asOf), 1));
