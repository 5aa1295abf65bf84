import type { PrintedMethod, ProcessTimeRow } from '../../shared/schemas/reference/process-time.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { acidDoseFor, acidulatedFoodOf } from './acid-dose.ts';
import { citationOf, cite, factNumber, factOf, factRange, fromMemory } from './citation.ts';
import { type JarRule, testedJarFor } from './jar-rule.ts';
import { conditionRefusal, untestedFoodRefusal } from './no-tested-process.ts';
import { allowed, forbidden, type Refusal, type Ruling, refusal } from './refusal.ts';
import type { Gauge, ProcessMethod, ProcessQuery, Schedule } from './schedule.ts';

export type ProcessTables = Pick<ReferenceTables, 'processTimes' | 'cannerFacts'>;

/** No place where people cook lies higher; a larger number is a slip of the pen or another unit. */
const highestAltitudeFt = 30_000;
/** Longer processes need more water above the jars: USDA Complete Guide 1, p1-18. */
const longProcessMinutes = 30;

const askExtension = 'Ask the local extension service, or refrigerate or freeze the food.';
const wholeGuide = cite('USDA-G1', 'p1-8, p1-17');

/**
 * Every published schedule for a food, pack, jar, canner and altitude: one, or several where the table prints
 * alternatives of time and pressure. Each is one printed row. Nothing is interpolated, extrapolated, scaled or mixed.
 *
 * Bands: an altitude on a printed edge stays in that band; one between two printed bands (1,000.7 ft) goes to the
 * higher. Below sea level and above the last printed band there is no row.
 *
 * Refuses, with the rule, its source and what is possible instead: unknown or untested foods, unstated gauge, low-acid
 * food outside a pressure canner, jars larger than tested, steam beyond its limit, rows that were not read, and
 * conditions of the food that forbid canning it.
 *
 * Sources: USDA Complete Guide to Home Canning, 2015, Guides 1 to 7; rules as cited in each refusal.
 */
export const schedulesFor = (
  tables: ProcessTables,
  query: ProcessQuery,
): Ruling<readonly [Schedule, ...Schedule[]]> => {
  const troubles = [...altitudeTroubles(query.altitudeFt), ...(query.conditions ?? []).map(conditionRefusal)];
  if (troubles.length > 0) return forbidden(...troubles);

  const ofFood = rowsOfStyle(tables.processTimes, query);
  if (!ofFood.ok) return ofFood;
  const ofMethod = rowsOfMethod(ofFood.value, query);
  if (!ofMethod.ok) return ofMethod;
  const ofPack = rowsOfPack(ofMethod.value, query);
  if (!ofPack.ok) return ofPack;
  const ofJar = rowsOfJar(ofPack.value, query, tables);
  if (!ofJar.ok) return ofJar;
  const ofBand = rowsOfBand(ofJar.value.rows, query);
  if (!ofBand.ok) return ofBand;
  const read = ofBand.value.filter((row) => row.basis === 'read');
  if (read.length === 0) return forbidden(notRead(ofBand.value[0]));
  const chosen = chosenAmong(read, query);
  if (!chosen.ok) return chosen;

  return scheduled(chosen.value, query, ofJar.value.rule, tables);
};

/**
 * The one published schedule. Where the table prints alternatives and none was chosen, the refusal lists them; a sheet
 * never prints two.
 */
export const scheduleFor = (tables: ProcessTables, query: ProcessQuery): Ruling<Schedule> => {
  const schedules = schedulesFor(tables, query);
  if (!schedules.ok) return schedules;
  const [only, ...others] = schedules.value;
  if (others.length === 0) return allowed(only);
  const listed = schedules.value.map(({ minutes, psi }) => `${minutes} min at ${psi} psi`).join(', ');
  return forbidden(
    refusal(
      'choose-schedule',
      'choice',
      'The table prints several schedules for this jar and altitude, and a sheet carries one',
      only.source,
      `Choose one of: ${listed}.`,
    ),
  );
};

const altitudeTroubles = (altitudeFt: number): Refusal[] => {
  if (Number.isFinite(altitudeFt) && altitudeFt >= 0 && altitudeFt <= highestAltitudeFt) return [];
  return [
    refusal(
      'altitude-out-of-range',
      'altitudeFt',
      `Expected the altitude of the kitchen, 0 to ${highestAltitudeFt.toLocaleString('en-US')} ft; found ${altitudeFt}`,
      cite('USDA-G1', 'every table begins at 0 ft'),
      'Look the altitude up for the place where the jars are processed. For a place below sea level ask the local extension service.',
    ),
  ];
};

type Rows = readonly ProcessTimeRow[];

const distinct = <T>(values: readonly T[]): T[] => [...new Set(values)];

const rowsOfStyle = (all: Rows, query: ProcessQuery): Ruling<Rows> => {
  const ofFood = all.filter((row) => row.foodKey === query.foodKey);
  const styles = distinct(ofFood.map((row) => row.style));
  const wanted = query.style?.trim().toLowerCase();
  const style =
    wanted === undefined && styles.length === 1
      ? styles[0]
      : styles.find((printed) => printed.toLowerCase() === wanted);
  if (style !== undefined) return allowed(ofFood.filter((row) => row.style === style));

  const named = untestedFoodRefusal(`${query.foodKey} ${query.style ?? ''}`);
  if (named) return forbidden(named);
  if (ofFood.length === 0) {
    return forbidden(
      refusal(
        'food-unknown',
        'foodKey',
        `No tested process for ${JSON.stringify(query.foodKey)} stands in the table`,
        cite('USDA-G1', 'p1-8'),
        askExtension,
      ),
    );
  }
  const listed = styles.map((printed) => `"${printed}"`).join(', ');
  const rule =
    wanted === undefined
      ? 'This food is printed in several styles, each with its own times'
      : `The style ${JSON.stringify(query.style)} is not printed for this food`;
  return forbidden(
    refusal('style-unknown', 'style', rule, citationOf(firstOf(ofFood)), `Choose one of: ${listed}.`),
  );
};

const printedMethodOf = (method: ProcessMethod, gauge: Gauge | undefined): PrintedMethod | undefined => {
  if (method !== 'pressure') return 'boiling-water';
  return gauge && `pressure-${gauge}`;
};

const rowsOfMethod = (rows: Rows, query: ProcessQuery): Ruling<Rows> => {
  if (query.method !== 'pressure' && rows.some((row) => row.acidity === 'low-acid')) {
    return forbidden(
      refusal(
        'low-acid-needs-pressure',
        'method',
        'Low-acid food is processed in a pressure canner only; boiling water and steam do not get hot enough to destroy botulism spores',
        wholeGuide,
        'Use a pressure canner, or freeze the food.',
      ),
    );
  }
  const method = printedMethodOf(query.method, query.gauge);
  if (!method) {
    return forbidden(
      refusal(
        'gauge-not-stated',
        'gauge',
        'A pressure schedule depends on the gauge, which was not stated',
        cite('USDA-G1', 'p1-20'),
        'Say whether the canner has a dial gauge or a weighted gauge.',
      ),
    );
  }
  const matching = rows.filter((row) => row.method === method);
  if (matching.length > 0) return allowed(matching);
  const methods = distinct(rows.map((row) => row.method)).join(', ');
  return forbidden(
    refusal(
      'method-not-printed',
      'method',
      `No ${method} schedule is printed for this food and style`,
      citationOf(firstOf(rows)),
      `Printed for it: ${methods}.`,
    ),
  );
};

const rowsOfPack = (rows: Rows, query: ProcessQuery): Ruling<Rows> => {
  const matching = rows.filter((row) => row.pack === query.pack);
  if (matching.length > 0) return allowed(matching);
  const packs = distinct(rows.map((row) => row.pack)).join(' or ');
  return forbidden(
    refusal(
      'pack-not-printed',
      'pack',
      `No ${query.pack} pack is printed for this food, style and canner`,
      citationOf(firstOf(rows)),
      `Printed for it: ${packs}.`,
    ),
  );
};

const rowsOfJar = (
  rows: Rows,
  query: ProcessQuery,
  tables: ProcessTables,
): Ruling<{ readonly rows: Rows; readonly rule: JarRule | null }> => {
  const tested = testedJarFor(query.jar, new Set(rows.map((row) => row.jar)), tables.cannerFacts);
  if (tested.kind === 'larger-than-tested') {
    return forbidden(
      refusal(
        'jar-larger-than-tested',
        'jar',
        tested.rule.rule,
        tested.rule.source,
        `Use ${tested.largest} jars or smaller.`,
      ),
    );
  }
  return allowed({
    rows: rows.filter((row) => row.jar === tested.jar),
    rule: tested.kind === 'by-rule' ? tested.rule : null,
  });
};

/** Metres turned into feet may miss an edge by a rounding error of the machine; a billionth of a foot is no altitude. */
const feetTolerance = 1e-6;

const inBand = (row: ProcessTimeRow, altitudeFt: number): boolean => {
  const aboveLower =
    row.altitudeFromFt === 0 ? altitudeFt >= 0 : altitudeFt > row.altitudeFromFt - 1 + feetTolerance;
  return aboveLower && (row.altitudeToFt === null || altitudeFt <= row.altitudeToFt + feetTolerance);
};

const rowsOfBand = (
  rows: Rows,
  query: ProcessQuery,
): Ruling<readonly [ProcessTimeRow, ...ProcessTimeRow[]]> => {
  const [first, ...others] = rows.filter((row) => inBand(row, query.altitudeFt));
  if (first) return allowed([first, ...others]);
  const highest = Math.max(...rows.map((row) => row.altitudeToFt ?? highestAltitudeFt));
  const dial = query.method === 'pressure' && query.gauge === 'dial';
  return forbidden(
    refusal(
      'altitude-not-printed',
      'altitudeFt',
      `No row is printed for this jar at ${query.altitudeFt} ft; the table ends at ${highest.toLocaleString('en-US')} ft`,
      citationOf(firstOf(rows)),
      dial
        ? 'Above 8,000 ft use a weighted gauge, or freeze the food.'
        : `Use another printed style or canner, or ${askExtension.charAt(0).toLowerCase()}${askExtension.slice(1)}`,
    ),
  );
};

const notRead = (row: ProcessTimeRow): Refusal =>
  refusal(
    'row-not-read',
    'foodKey',
    `The row for ${row.food}, ${row.jar}, at this altitude was not seen in the publication and is not served`,
    fromMemory(row.locator),
    'Look the time up in the current official guide, or refrigerate or freeze the food.',
  );

const chosenAmong = (
  rows: Rows,
  query: ProcessQuery,
): Ruling<readonly [ProcessTimeRow, ...ProcessTimeRow[]]> => {
  const { minutes, psi } = query.choice ?? {};
  const [first, ...others] = rows.filter(
    (row) => (minutes === undefined || row.minutes === minutes) && (psi === undefined || row.psi === psi),
  );
  if (first) return allowed([first, ...others]);
  const listed = rows.map((row) =>
    row.psi === null ? `${row.minutes} min` : `${row.minutes} min at ${row.psi} psi`,
  );
  return forbidden(
    refusal(
      'choice-not-printed',
      'choice',
      `The chosen schedule (${minutes ?? 'any'} min, ${psi ?? 'any'} psi) is not printed for this jar and altitude`,
      citationOf(firstOf(rows)),
      `Choose one of: ${listed.join(', ')}.`,
    ),
  );
};

const scheduled = (
  rows: readonly [ProcessTimeRow, ...ProcessTimeRow[]],
  query: ProcessQuery,
  rule: JarRule | null,
  tables: ProcessTables,
): Ruling<readonly [Schedule, ...Schedule[]]> => {
  const { cannerFacts: facts } = tables;
  if (query.method === 'atmospheric-steam') {
    const limit = factNumber(facts, 'steam_canner.max_process_time_incl_altitude');
    const [row] = rows;
    if (row.minutes > limit) {
      return forbidden(
        refusal(
          'steam-too-long',
          'method',
          `An atmospheric steam canner may run at most ${limit} minutes, the altitude addition included; this row needs ${row.minutes}`,
          citationOf(factOf(facts, 'steam_canner.max_process_time_incl_altitude')),
          'Use a boiling-water canner.',
        ),
      );
    }
  }
  const acidulated = acidulatedFoodOf(query.foodKey);
  const acid = acidulated ? acidDoseFor(acidulated, query.jar, facts) : null;
  if (acid === undefined) {
    return forbidden(
      refusal(
        'acid-dose-not-printed',
        'jar',
        `No acid amount is printed for a ${query.jar} jar of this food`,
        cite('USDA-G3', 'p3-5'),
        'Use quart jars or smaller.',
      ),
    );
  }
  const toSchedule = (row: ProcessTimeRow): Schedule => ({
    foodKey: row.foodKey,
    food: row.food,
    style: row.style,
    acidity: row.acidity,
    pack: row.pack,
    method: query.method,
    gauge: query.method === 'pressure' ? (query.gauge ?? null) : null,
    jar: query.jar,
    printedJar: row.jar,
    jarRule: rule,
    altitudeFt: query.altitudeFt,
    bandFromFt: row.altitudeFromFt,
    bandToFt: row.altitudeToFt,
    minutes: row.minutes,
    psi: row.psi,
    headspaceIn: row.headspaceIn,
    sterileJars: saysSterile(row.style),
    acid,
    waterAboveJarsIn: query.method === 'boiling-water' ? waterAbove(row.minutes, tables) : null,
    source: citationOf(row),
    rowKey: rowKeyOf(row),
  });
  const [first, ...others] = rows;
  return allowed([toSchedule(first), ...others.map(toSchedule)]);
};

const saysSterile = (style: string): boolean => /\bsterile\b/.test(style);

const waterAbove = (minutes: number, { cannerFacts }: ProcessTables): number =>
  minutes > longProcessMinutes
    ? factNumber(cannerFacts, 'bwc.min_water_above_jars.process_over_30_min')
    : factRange(cannerFacts, 'bwc.min_water_above_jars').low;

/** Text key of a printed row: food, style, method, pack, jar, lower altitude, minutes and pressure. */
export const rowKeyOf = (row: ProcessTimeRow): string =>
  [
    row.foodKey,
    row.style,
    row.method,
    row.pack,
    row.jar,
    row.altitudeFromFt,
    row.minutes,
    row.psi ?? 'boiling',
  ].join('|');

const firstOf = (rows: Rows): ProcessTimeRow => {
  const [first] = rows;
  if (!first) throw new RangeError('firstOf: expected at least one row');
  return first;
};
