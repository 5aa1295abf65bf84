import { counted } from '../../../shared/counting.ts';
import type { ProcessTimeRow } from '../../../shared/schemas/reference/process-time.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { citationOf, cite, factNumber, factOf, factRange } from '../citation.ts';
import { allowed, forbidden, type Refusal, type Ruling, refusal } from '../refusal.ts';
import { acidDoseFor, acidulatedFoodOf } from './acid-dose.ts';
import { conditionRefusal } from './food-conditions.ts';
import type { JarRule } from './jar-rule.ts';
import {
  chosenAmong,
  highestAltitudeFt,
  notRead,
  rowsOfBand,
  rowsOfJar,
  rowsOfMethod,
  rowsOfPack,
  rowsOfStyle,
  type SomeRows,
} from './printed-rows.ts';
import type { ProcessQuery, Schedule } from './schedule.ts';

export type ProcessTables = Pick<ReferenceTables, 'processTimes' | 'cannerFacts'>;

/** Longer processes need more water above the jars: USDA Complete Guide 1, p1-18. */
const longProcessMinutes = 30;

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
  const ofJar = rowsOfJar(ofPack.value, query, tables.cannerFacts);
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
  return schedules.ok ? chosenSchedule(schedules.value, null) : schedules;
};

/** Of printed alternatives the one that was chosen by its row; where several stand and none was chosen, a refusal that lists them. */
export const chosenSchedule = (
  schedules: readonly [Schedule, ...Schedule[]],
  rowKey: string | null,
): Ruling<Schedule> => {
  const [only, ...others] = schedules;
  if (others.length === 0) return allowed(only);
  const chosen = schedules.find((schedule) => schedule.rowKey === rowKey);
  if (chosen) return allowed(chosen);
  const listed = schedules.map(({ minutes, psi }) => `${minutes} min at ${psi} psi`).join(', ');
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
      `The kitchen’s altitude must be 0 to ${highestAltitudeFt.toLocaleString('en-US')} ft, not ${altitudeFt}`,
      cite('USDA-G1', 'every table begins at 0 ft'),
      'Look the altitude up for the place where the jars are processed. For a place below sea level ask the local extension service.',
    ),
  ];
};

const scheduled = (
  rows: SomeRows,
  query: ProcessQuery,
  rule: JarRule | null,
  tables: ProcessTables,
): Ruling<readonly [Schedule, ...Schedule[]]> => {
  const { cannerFacts: facts } = tables;
  if (query.method === 'atmospheric-steam') {
    const limit = factNumber(facts, 'steam_canner.max_process_time_incl_altitude');
    const longest = Math.max(...rows.map((row) => row.minutes));
    if (longest > limit) {
      return forbidden(
        refusal(
          'steam-too-long',
          'method',
          `An atmospheric steam canner may run at most ${counted(limit, 'minute')}, the altitude addition included; this row needs ${longest}`,
          citationOf(factOf(facts, 'steam_canner.max_process_time_incl_altitude')),
          'Use a boiling-water canner.',
        ),
      );
    }
  }
  const acidulated = acidulatedFoodOf(rows[0].foodKey);
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
