import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { addDays, type CalendarDate, daysBetween, mondayOf } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { ItemYear } from '../../../src/planning/year/item-year.ts';
import type { ShelfProjection } from '../../../src/shelf/shelf-projection.ts';
import type { BoardWeek, WeekMark, WeekSpan, YearBoardProps } from '../../../views/charts/year-board.tsx';
import type { YearAxis } from '../../../views/charts/year-picture.tsx';
import { formatDay, formatQuantity, formatWeek, inReadersUnit } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { monthsAmong } from '../../words/buying/weeks-against-limit.ts';
import { gapFromNow, gapInHole, gapInPicture, gapsAhead } from '../../words/year/run-out.ts';
import type { YearPicture } from '../../year/year-picture.ts';

export interface YearReader {
  readonly picture: YearPicture;
  readonly reading: Reading;
  /** Published crops, for their names. */
  readonly crops: ReferenceTables['harvestWindows'];
}

/** The weeks of the year and where its months begin. */
export const presentAxis = ({ picture, reading }: YearReader): YearAxis => {
  const { weeks } = picture.loaded.year;
  return { weekCount: weeks.length, months: monthsAmong(weeks, reading) };
};

/** Below half a unit nothing is marked. */
const leastMarked = 0.5;

/** An item's board in the picture of the year: what there is to eat, without what is kept for an emergency. */
export const presentBoard = (itemYear: ItemYear, reader: YearReader): YearBoardProps => {
  const { projection } = itemYear;
  return {
    opening: itemYear.unitsToEat,
    weeks: projection === null ? standingStill(itemYear, reader.picture) : weeksOf(projection),
    harvests: harvestsOf(itemYear, reader),
    putUp: marksOf(itemYear, reader, 'madeByWeek', 'Put up'),
    bought: marksOf(itemYear, reader, 'boughtByWeek', 'Buy'),
    bare: bareSpans(itemYear, reader.reading),
    bestQuality: projection === null ? [] : bestQualityMarks(projection, itemYear.item, reader.reading),
  };
};

const weeksOf = ({ weeks }: ShelfProjection): readonly BoardWeek[] =>
  weeks.map(({ closing }) => ({ low: closing.p10, likely: closing.p50, high: closing.p90 }));

/** What nobody says they eat stays as it is. */
const standingStill = ({ unitsToEat }: ItemYear, { loaded }: YearPicture): readonly BoardWeek[] =>
  loaded.year.weeks.map(() => ({ low: unitsToEat, likely: unitsToEat, high: unitsToEat }));

/** The planned dates of every source of the item's crops, as stretches of weeks, days counted. */
const harvestsOf = ({ item }: ItemYear, { picture, reading }: YearReader): readonly WeekSpan[] => {
  const { loaded } = picture;
  const [firstWeek] = loaded.year.weeks;
  if (firstWeek === undefined) return [];
  const crops = new Set<string>(
    loaded.recipes.planned
      .filter((recipe) => recipe.itemId === item.id)
      .flatMap((recipe) => recipe.produce.map((part) => part.crop)),
  );
  const start = mondayOf(firstWeek);
  const end = addDays(start, 7 * loaded.year.weeks.length);
  return loaded.facts.sources
    .filter((source) => crops.has(source.crop))
    .flatMap((source) =>
      (loaded.seasonsBySource.get(source.id) ?? []).map(({ season }) => ({
        source,
        from: season.plannedFrom,
        until: addDays(season.plannedTo, 1),
      })),
    )
    .filter(({ from, until }) => from < end && until > start)
    .map(({ source, from, until }) => ({
      from: Math.max(0, placeOf(start, from)),
      until: Math.min(loaded.year.weeks.length, placeOf(start, until)),
      words: `${source.name}: ${formatDay(from, reading)} to ${formatDay(addDays(until, -1), reading)}`,
    }));
};

const placeOf = (start: CalendarDate, date: CalendarDate): number => daysBetween(start, date) / 7;

/** What the plan makes or buys, by week of this year. */
const marksOf = (
  { path, item }: ItemYear,
  { picture, reading }: YearReader,
  which: 'madeByWeek' | 'boughtByWeek',
  verb: string,
): readonly WeekMark[] => {
  const { plan, loaded } = picture;
  if (path === null || plan === null) return [];
  return plan.year.weeks.flatMap((week, at): WeekMark[] => {
    const count = path[which][at] ?? 0;
    const place = loaded.year.weeks.indexOf(week);
    const shown = asCounted(count, item);
    return shown <= 0 || place === -1
      ? []
      : [
          {
            week: place,
            count: inReadersUnit(shown, item.unit, reading),
            words: `${verb} ${formatQuantity(shown, item.unit, reading)} in the ${formatWeek(week, reading)}`,
          },
        ];
  });
};

/** What a plan counts on in parts of a jar comes in whole ones; pounds stay as they are. */
const asCounted = (units: number, { unit }: Item): number =>
  unit === 'lb' ? Math.round(units * 10) / 10 : Math.round(units);

const bareSpans = (itemYear: ItemYear, reading: Reading): YearBoardProps['bare'] =>
  gapsAhead(itemYear).flatMap((gap, at) => {
    const span = itemYear.gaps[at];
    return span === undefined
      ? []
      : [
          {
            ...span,
            words:
              span.from === 0 && itemYear.unitsOnShelf <= 0 ? gapFromNow(gap) : gapInPicture(gap, reading),
            label: gapInHole(gap),
          },
        ];
  });

/** Weeks in which likely at least half a unit more stands past its best quality than the week before. */
const bestQualityMarks = (
  { weeks }: ShelfProjection,
  { unit }: Item,
  reading: Reading,
): readonly WeekMark[] => {
  const marks: WeekMark[] = [];
  let before = 0;
  for (const [at, { week, pastBest }] of weeks.entries()) {
    const more = pastBest.p50 - before;
    if (more >= leastMarked)
      marks.push({
        week: at,
        count: inReadersUnit(pastBest.p50, unit, reading),
        words: `About ${formatQuantity(Math.round(pastBest.p50), unit, reading)} past best quality from the ${formatWeek(week, reading)}`,
      });
    before = pastBest.p50;
  }
  return marks;
};
