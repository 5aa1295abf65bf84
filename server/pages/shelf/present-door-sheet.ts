import { families } from '../../../shared/family.ts';
import { type CalendarDate, type WeekKey, weekOf, weeksBetween } from '../../../shared/week.ts';
import type { Item } from '../../../src/household/item.ts';
import type { ItemOnShelf } from '../../../src/household/lot.ts';
import type { ItemYear } from '../../../src/planning/year/item-year.ts';
import type { DoorLine, DoorSheetPageProps } from '../../../views/pages/shelf/door-sheet-page.tsx';
import { familyWords, formatDate } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { PromisedUnits } from '../../queries/year/promises.ts';
import { figureOf } from '../../words/shelf-units.ts';
import type { YearPicture } from '../../year/year-picture.ts';
import { piecesInBook } from './present-count.ts';

const fewestBoxes = 5;
const mostBoxes = 20;
/** A sheet hangs for about a month; twice what is usually taken, so that a hungry month fits too. */
const weeksOnDoor = 4.35;

export interface DoorSetting {
  readonly today: CalendarDate;
  readonly reading: Reading;
  readonly householdName: string;
  readonly promisedByItem: ReadonlyMap<string, PromisedUnits>;
}

/** What stands there and how far it has to reach, family by family, as a person walks the shelf. */
export function presentDoorSheet(
  shelf: readonly ItemOnShelf[],
  picture: YearPicture,
  setting: DoorSetting,
): Omit<DoorSheetPageProps, 'frame'> {
  return {
    weight: setting.reading.units === 'metric' ? 'kilogram' : 'pound',
    heading: `${setting.householdName}, ${formatDate(setting.today, setting.reading)}`,
    families: families.flatMap((family) => {
      const lines = shelf
        .filter(({ item }) => item.family === family)
        .map((own) => doorLine(own, picture.itemYearById.get(own.item.id), setting));
      return lines.length === 0 ? [] : [{ name: familyWords[family], lines }];
    }),
  };
}

function doorLine(shelf: ItemOnShelf, year: ItemYear | undefined, setting: DoorSetting): DoorLine {
  const { item, lots } = shelf;
  const { reading, today } = setting;
  const perWeek = year?.forecast?.perWeek ?? 0;
  const boxes = Math.ceil((2 * weeksOnDoor * perWeek) / 5) * 5;
  return {
    itemId: item.id,
    item: { name: item.name, family: item.family },
    have: figureOf(item, piecesInBook(shelf), reading),
    need: year === undefined ? '' : needUntilSeason(year, reading),
    weeksLeft: year === undefined ? '' : weeksLeft(year, today),
    where: [
      ...new Set(lots.flatMap(({ place }) => (place === null ? [] : [place.name]))),
      ...promisedWords(item, setting.promisedByItem.get(item.id), reading),
    ].join(', '),
    boxes: Math.min(mostBoxes, Math.max(fewestBoxes, boxes)),
  };
}

const promisedWords = (item: Item, promised: PromisedUnits | undefined, reading: Reading): string[] =>
  promised === undefined ? [] : [`${figureOf(item, promised.units, reading)} promised`];

/** What is bought can be had any week; what is made has to reach to its next season. */
function needUntilSeason({ item, forecast, supply }: ItemYear, reading: Reading): string {
  const until: WeekKey | null = supply.nextSeasonWeek ?? supply.nextSupplyWeek;
  if (item.kind === 'staple' || forecast === null || until === null) return '';
  const units = forecast.weeks.filter(({ week }) => week < until).reduce((sum, { mean }) => sum + mean, 0);
  return figureOf(item, Math.max(0, Math.ceil(units - 1e-9)), reading);
}

function weeksLeft({ runOut, unitsToEat }: ItemYear, today: CalendarDate): string {
  if (runOut === null) return '';
  if (unitsToEat <= 0) return '0';
  const { p50 } = runOut;
  return p50 === null ? 'a year' : String(Math.max(0, weeksBetween(weekOf(today), p50)));
}
