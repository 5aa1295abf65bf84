import { addWeeks, asWeek, type WeekKey } from '../../shared/week.ts';
import type { WeekOfUse } from '../../src/consumption/week-of-use.ts';
import { poissonDraw } from '../shelf/households-use.ts';

// Ways a household may eat, written without looking at the forecast: each gives the units of a week, one week after the other.

export type Random = () => number;
/** Units taken in a week: weeks are numbered from 0, months January = 1. */
export type Process = (week: number, month: number) => number;

/** So many a week on average, by chance alone. */
export const steady =
  (perWeek: number, random: Random): Process =>
  () =>
    poissonDraw(perWeek, random);

/** Meals by chance, each of one to several units: weeks are lumpier than chance. Mean units a meal: 1 / (1 - more). */
export const inMeals =
  (perWeek: number, more: number, random: Random): Process =>
  () => {
    let units = 0;
    for (let meals = poissonDraw(perWeek * (1 - more), random); meals > 0; meals -= 1) {
      units += 1;
      while (random() < more) units += 1;
    }
    return units;
  };

/** An appetite that wanders a few percent a week and is drawn back to what it was. */
export const wandering = (perWeek: number, random: Random): Process => {
  let drift = 0;
  return () => {
    drift = 0.98 * drift + 0.12 * (random() + random() + random() - 1.5);
    return poissonDraw(perWeek * Math.exp(drift), random);
  };
};

/** One appetite up to a week, another from it on. */
export const changing =
  (before: Process, after: Process, from: number): Process =>
  (week, month) =>
    week < from ? before(week, month) : after(week, month);

/** A full week, then an empty one. */
export const everyOtherWeek =
  (units: number): Process =>
  (week) =>
    week % 2 === 0 ? units : 0;

/** The same, and on one week a feast on top. */
export const withFeast =
  (everyday: Process, onWeek: number, units: number): Process =>
  (week, month) =>
    everyday(week, month) + (week === onWeek ? units : 0);

/** Eaten in some months only. */
export const inMonths =
  (months: readonly number[], process: Process): Process =>
  (week, month) =>
    months.includes(month) ? process(week, month) : 0;

const firstWeek = asWeek('2022-W01');
const keys: WeekKey[] = [];
export const weekAt = (week: number): WeekKey => {
  while (keys.length <= week)
    keys.push(keys.length === 0 ? firstWeek : addWeeks(keys.at(-1) ?? firstWeek, 1));
  return keys[week] ?? firstWeek;
};

/** Month of a week by the calendar's own arithmetic: that of its Thursday. */
export const monthAt = (week: number): number => new Date(Date.UTC(2022, 0, 6 + 7 * week)).getUTCMonth() + 1;

/** The first `weeks` weeks, all of them seen. */
export const weeksOf = (process: Process, weeks: number): WeekOfUse[] =>
  Array.from({ length: weeks }, (_, week) => ({
    week: weekAt(week),
    taken: process(week, monthAt(week)),
    exposure: 1,
  }));
