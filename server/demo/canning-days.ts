import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';
import { addDays, type CalendarDate, mondayOf, weekOf } from '../../shared/week.ts';
import { isWithin, onDay, spansIn, windowOf } from './demo-calendar.ts';
import type { DemoData, DemoRecipe } from './demo-data.ts';

/** Days a household looks ahead for a free kitchen before it lets a batch go. */
const daysToFindTime = 21;

export interface DemoCanningDay {
  readonly recipe: DemoRecipe;
  readonly on: CalendarDate;
}

/**
 * The days on which the household made each batch in a year: about the date it had in mind, on its kitchen days, at home,
 * while the crop was to be had, and never more than the session holds.
 */
export const canningDays = (
  data: DemoData,
  windows: readonly HarvestWindowRow[],
  year: number,
): readonly DemoCanningDay[] => {
  const { hoursPerSession, setUpMinutes } = data.household.kitchenTime;
  const away = data.household.away.flatMap((span) => spansIn([year], span));
  const minutesOn = new Map<CalendarDate, number>();
  const days: DemoCanningDay[] = [];

  for (const { recipe, wishedOn } of wishes(data, year)) {
    for (let waited = 0; waited < daysToFindTime; waited += 1) {
      const on = addDays(wishedOn, waited);
      if (!isKitchenDay(data, on) || isWithin(on, away) || !canBeHad(data, windows, recipe, on)) continue;
      const minutes = (minutesOn.get(on) ?? setUpMinutes) + recipe.hands_on_minutes;
      if (minutes > hoursPerSession * 60) continue;
      minutesOn.set(on, minutes);
      days.push({ recipe, on });
      break;
    }
  }
  return days;
};

const wishes = (data: DemoData, year: number) =>
  data.recipes
    .flatMap((recipe) => recipe.made_around.map((monthDay) => ({ recipe, wishedOn: onDay(year, monthDay) })))
    .sort((one, other) => one.wishedOn.localeCompare(other.wishedOn));

const isKitchenDay = (data: DemoData, on: CalendarDate): boolean => {
  const { sessionWeekday, secondWeekday } = data.household.kitchenTime;
  const monday = mondayOf(weekOf(on));
  return on === addDays(monday, sessionWeekday - 1) || on === addDays(monday, secondWeekday - 1);
};

const canBeHad = (
  data: DemoData,
  windows: readonly HarvestWindowRow[],
  recipe: DemoRecipe,
  on: CalendarDate,
): boolean =>
  data.recipeProduce
    .filter((need) => need.recipe === recipe.id)
    .every((need) =>
      data.sources
        .filter((source) => source.crop === need.crop)
        .some((source) => {
          const window = windowOf(source, windows, data.household.region, Number(on.slice(0, 4)));
          return isWithin(on, [window.active ?? { from: window.begins, until: window.ends }]);
        }),
    );
