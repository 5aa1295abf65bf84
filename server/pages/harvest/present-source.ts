import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { addDays, addMonths, type CalendarDate, yearOf } from '../../../shared/week.ts';
import { guessedSeason } from '../../../src/harvest/known-ground.ts';
import type { LocalWindowAnswer } from '../../../src/harvest/local-window.ts';
import { seasonIn } from '../../../src/harvest/season.ts';
import type { HarvestWindow, Source } from '../../../src/household/source.ts';
import { tradeMeasuresOf } from '../../../src/preserving/foods/trade-measures.ts';
import type { SourceForm, WindowForm, WindowFormProps } from '../../../views/pages/harvest/source-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import type { Reading } from '../../../views/words/reading.ts';
import { cropGuessFor } from '../../reference/first-year.ts';
import { saidPrice } from '../../words/buying/produce-words.ts';
import { plain } from '../../words/plain-number.ts';
import { answerWords, groundWords } from '../../words/season-guess.ts';
import { type SentBack, statesFrom } from '../shared/answer-form.ts';
import { inWeight, perWeight, poundsTyped, unitChoicesOf, weightUnit } from '../shared/produce/units.ts';
import type { GroundPicture } from './present-ground.ts';

type SourceValues = SourceForm['values'];
type WindowValues = WindowForm['values'];

export const blankSource = (reading: Reading): SourceValues => ({
  name: '',
  crop: '',
  kind: 'garden',
  pricePerLb: '0',
  priceUnit: weightUnit(reading),
  plants: '',
  lbPerPlant: '',
  plantUnit: weightUnit(reading),
  useByDays: '3',
  poorYearsInTen: '0',
  poorYearPercent: '30',
  fallBack: 'buy',
});

/** What a form of a source begins with; a price that was said for a bushel stands there for a bushel. */
export function sourceValues(source: Source, reading: Reading, tables: ReferenceTables): SourceValues {
  const said = saidPrice(source, tradeMeasuresOf(source.crop, tables));
  return {
    name: source.name,
    crop: source.crop,
    kind: source.kind,
    pricePerLb: plain((said?.cents ?? perWeight(source.pricePerLb, reading)) / 100),
    priceUnit: said?.measure ?? weightUnit(reading),
    plants: source.plants === null ? '' : String(source.plants),
    lbPerPlant: source.lbPerPlant === null ? '' : poundsTyped(source.lbPerPlant, reading),
    plantUnit: weightUnit(reading),
    useByDays: String(source.useByDays),
    poorYearsInTen: plain(source.poorYearChance * 10),
    poorYearPercent: plain(source.poorYearShare * 100),
    fallBack: source.fallBack,
  };
}

const lastDay = (endsOn: CalendarDate): CalendarDate => addDays(endsOn, -1);

const noDates = (reading: Reading): WindowValues => ({
  beginsOn: '',
  lastOn: '',
  mostActiveFrom: '',
  mostActiveLastOn: '',
  lbPerWeek: '',
  amountUnit: weightUnit(reading),
});

/** The dates of a year as written down; otherwise those of the nearest year, moved to it, as a start. */
function windowValues(windows: readonly HarvestWindow[], year: number, reading: Reading): WindowValues {
  const nearest = windows.findLast((window) => window.year <= year) ?? windows[0];
  if (!nearest) return noDates(reading);
  const moved = (date: CalendarDate): string => addMonths(date, 12 * (year - nearest.year));
  return {
    beginsOn: moved(nearest.beginsOn),
    lastOn: moved(lastDay(nearest.endsOn)),
    mostActiveFrom: nearest.mostActive === null ? '' : moved(nearest.mostActive.fromOn),
    mostActiveLastOn: nearest.mostActive === null ? '' : moved(lastDay(nearest.mostActive.untilOn)),
    lbPerWeek: poundsTyped(nearest.lbPerWeek, reading),
    amountUnit: weightUnit(reading),
  };
}

export interface WindowSetting {
  readonly ground: GroundPicture;
  readonly today: CalendarDate;
  readonly reading: Reading;
  readonly keys: () => FormKeys;
  readonly sentBack: SentBack | null;
}

/** A form for this year's dates and one for the next. */
export function presentWindows(source: Source, setting: WindowSetting): readonly WindowFormProps[] {
  const thisYear = yearOf(setting.today);
  const { known, reference } = setting.ground;
  const answer = guessedSeason(source, known, reference);
  const state = statesFrom(setting.keys, setting.sentBack);
  return [thisYear, thisYear + 1].map((year) => {
    const isWritten = source.windows.some((window) => window.year === year);
    return {
      sourceId: source.id,
      year,
      published: windowLine(source, setting, answer, isWritten),
      units: unitChoicesOf(tradeMeasuresOf(source.crop, reference), setting.reading),
      form: state(
        `window-${year}`,
        source.windows.length === 0
          ? guessedValues(source, answer, year, setting.reading)
          : windowValues(source.windows, year, setting.reading),
      ),
    };
  });
}

function windowLine(
  source: Source,
  { ground, reading }: WindowSetting,
  answer: LocalWindowAnswer,
  isWritten: boolean,
): string | null {
  const place = groundWords(ground.known, ground.stated, reading);
  const guess = answerWords(answer, place, reading);
  if (source.windows.length === 0)
    return guess === null
      ? 'Nothing is published for it near you: write the dates down, or nothing is planned from it.'
      : `Not written down yet. ${guess} Save it as it is, or put your own dates.`;
  const ours = isWritten ? '' : 'Not written down yet; the plan takes these dates from the nearest year.';
  return `${ours} ${guess ?? ''}`.trim() || null;
}

/** The dates guessed for a source that has none, and what its like usually gives, as a start. */
function guessedValues(
  source: Source,
  answer: LocalWindowAnswer,
  year: number,
  reading: Reading,
): WindowValues {
  if (answer.kind !== 'window') return noDates(reading);
  const season = seasonIn(answer.local.window, year);
  const isActive = season.plannedOn === 'most-active';
  const { gardenLbPerWeek, boughtLbPerWeek } = cropGuessFor(source.crop);
  return {
    beginsOn: season.beginsOn,
    lastOn: season.endsOn,
    mostActiveFrom: isActive ? season.plannedFrom : '',
    mostActiveLastOn: isActive ? season.plannedTo : '',
    lbPerWeek: plain(inWeight(source.kind === 'garden' ? gardenLbPerWeek : boughtLbPerWeek, reading)),
    amountUnit: weightUnit(reading),
  };
}
