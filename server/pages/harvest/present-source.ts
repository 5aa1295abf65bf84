import { poundsPerKilogram } from '../../../shared/measures.ts';
import type { HarvestWindowRow } from '../../../shared/schemas/reference/harvest-window.ts';
import { addDays, addMonths, type CalendarDate, yearOf } from '../../../shared/week.ts';
import { cropName, isCrop } from '../../../src/harvest/crop-name.ts';
import type { Recipe } from '../../../src/household/recipe.ts';
import type { HarvestWindow, Source } from '../../../src/household/source.ts';
import type {
  SourceValues,
  WindowFormProps,
  WindowValues,
} from '../../../views/pages/harvest/source-page.tsx';
import type { Choice, FieldProblems, FormKeys } from '../../../views/parts/form.tsx';
import { noProblems } from '../../../views/parts/form.tsx';
import { formatDay } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { plain } from '../../words/plain-number.ts';

export const sourceFields = [
  'name',
  'crop',
  'kind',
  'pricePerLb',
  'plants',
  'lbPerPlant',
  'useByDays',
  'poorYearsInTen',
  'poorYearPercent',
  'fallBack',
] as const;

export const windowFields = [
  'beginsOn',
  'lastOn',
  'mostActiveFrom',
  'mostActiveLastOn',
  'lbPerWeek',
] as const;

/** Crops that recipes use and crops with a published season, by name. */
export function cropChoices(
  recipes: readonly Recipe[],
  published: readonly HarvestWindowRow[],
  own: string,
): readonly Choice[] {
  const keys = new Set([
    ...recipes.flatMap((recipe) => recipe.produce.map((part) => part.crop)),
    ...published.map((row) => row.cropKey.replaceAll('_', '-')),
    ...(own === '' ? [] : [own]),
  ]);
  const named = [...keys].map((key) => ({ value: key, words: cropName(published, key) }));
  return [
    { value: '', words: 'Choose a crop' },
    ...named.sort((one, other) => (one.words < other.words ? -1 : 1)),
  ];
}

export const blankSource: SourceValues = {
  name: '',
  crop: '',
  kind: 'garden',
  pricePerLb: '0',
  plants: '',
  lbPerPlant: '',
  useByDays: '3',
  poorYearsInTen: '0',
  poorYearPercent: '30',
  fallBack: 'buy',
};

/** Weights are shown, and typed, in pounds or in kilograms. */
export const weightUnit = ({ units }: Reading): 'lb' | 'kg' => (units === 'metric' ? 'kg' : 'lb');

const inWeight = (lb: number, { units }: Reading): number =>
  units === 'metric' ? lb / poundsPerKilogram : lb;
const perWeight = (amountPerLb: number, { units }: Reading): number =>
  units === 'metric' ? amountPerLb * poundsPerKilogram : amountPerLb;

export const sourceValues = (source: Source, reading: Reading): SourceValues => ({
  name: source.name,
  crop: source.crop,
  kind: source.kind,
  pricePerLb: plain(perWeight(source.pricePerLb, reading) / 100),
  plants: source.plants === null ? '' : String(source.plants),
  lbPerPlant: source.lbPerPlant === null ? '' : plain(inWeight(source.lbPerPlant, reading)),
  useByDays: String(source.useByDays),
  poorYearsInTen: plain(source.poorYearChance * 10),
  poorYearPercent: plain(source.poorYearShare * 100),
  fallBack: source.fallBack,
});

const lastDay = (endsOn: CalendarDate): CalendarDate => addDays(endsOn, -1);

/** The dates of a year as written down; otherwise those of the nearest year, moved to it, as a start. */
function windowValues(windows: readonly HarvestWindow[], year: number, reading: Reading): WindowValues {
  const nearest = windows.findLast((window) => window.year <= year) ?? windows[0];
  if (!nearest) return { beginsOn: '', lastOn: '', mostActiveFrom: '', mostActiveLastOn: '', lbPerWeek: '' };
  const moved = (date: CalendarDate): string => addMonths(date, 12 * (year - nearest.year));
  return {
    beginsOn: moved(nearest.beginsOn),
    lastOn: moved(lastDay(nearest.endsOn)),
    mostActiveFrom: nearest.mostActive === null ? '' : moved(nearest.mostActive.fromOn),
    mostActiveLastOn: nearest.mostActive === null ? '' : moved(lastDay(nearest.mostActive.untilOn)),
    lbPerWeek: plain(inWeight(nearest.lbPerWeek, reading)),
  };
}

export interface WindowSetting {
  readonly published: readonly HarvestWindowRow[];
  readonly region: string | null;
  readonly today: CalendarDate;
  readonly reading: Reading;
  readonly keys: () => FormKeys;
  readonly sentBack: {
    readonly year: number;
    readonly values: Readonly<Record<string, string>>;
    readonly problems: FieldProblems;
  } | null;
}

/** A form for this year's dates and one for the next. */
export function presentWindows(source: Source, setting: WindowSetting): readonly WindowFormProps[] {
  const thisYear = yearOf(setting.today);
  return [thisYear, thisYear + 1].map((year) => {
    const sent = setting.sentBack?.year === year ? setting.sentBack : null;
    const isWritten = source.windows.some((window) => window.year === year);
    return {
      sourceId: source.id,
      year,
      published: windowLine(source, setting, isWritten),
      weight: weightUnit(setting.reading),
      keys: setting.keys(),
      values: { ...windowValues(source.windows, year, setting.reading), ...sent?.values },
      problems: sent?.problems ?? noProblems,
    };
  });
}

function windowLine(
  source: Source,
  { published, region, reading }: WindowSetting,
  isWritten: boolean,
): string | null {
  const row = published.find((known) => isCrop(known, source.crop) && known.region === region);
  const ours = isWritten ? '' : 'Not written down yet; the plan takes these dates from the nearest year.';
  if (!row) return ours === '' ? null : ours;
  const year = 2001;
  const day = (monthDay: string) => formatDay(`${year}-${monthDay}` as CalendarDate, reading);
  const most =
    row.mostActiveFrom === null || row.mostActiveTo === null
      ? ''
      : `, most of it ${day(row.mostActiveFrom)} to ${day(row.mostActiveTo)}`;
  return `${ours} Published for ${row.region}: ${day(row.beginsOn)} to ${day(row.endsOn)}${most} (${row.sourceId}).`.trim();
}
