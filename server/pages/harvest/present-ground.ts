import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { type CalendarDate, yearOf } from '../../../shared/week.ts';
import { stationChoices } from '../../../src/harvest/find-ground.ts';
import { stationsNear } from '../../../src/harvest/find-station.ts';
import type { SeasonTables } from '../../../src/harvest/ground.ts';
import type { KnownGround } from '../../../src/harvest/known-ground.ts';
import { stationName } from '../../../src/harvest/station-name.ts';
import type { SeasonLateness, StatedGround } from '../../../src/household/ground.ts';
import type { Household } from '../../../src/household/household.ts';
import type { Source } from '../../../src/household/source.ts';
import type { GroundForm, GroundProps } from '../../../views/pages/harvest/ground-part.tsx';
import type { Choice, FormKeys } from '../../../views/parts/form.tsx';
import { formatAltitude } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { freezeWords, groundWords } from '../../words/season-guess.ts';
import { type SentBack, statesFrom } from '../shared/answer-form.ts';

/** What the household said of its ground, and what is known from it. */
export interface GroundPicture {
  readonly household: Household;
  readonly stated: StatedGround;
  readonly known: KnownGround;
  readonly lateness: readonly SeasonLateness[];
  readonly sources: readonly Source[];
  readonly reference: SeasonTables & Pick<ReferenceTables, 'yields' | 'measures'>;
  readonly today: CalendarDate;
  readonly reading: Reading;
}

const lateWords: readonly Choice[] = [
  { value: '-21', words: '3 weeks early' },
  { value: '-14', words: '2 weeks early' },
  { value: '-7', words: '1 week early' },
  { value: '7', words: '1 week late' },
  { value: '14', words: '2 weeks late' },
  { value: '21', words: '3 weeks late' },
];

/** How all crops may run, and how one may run besides them. */
const yearChoices: readonly Choice[] = [{ value: '', words: 'as usual' }, ...lateWords];
export const cropChoicesOfYear: readonly Choice[] = [
  { value: '', words: 'like the other crops' },
  { value: '0', words: 'as usual' },
  ...lateWords,
];

/** How the year of a crop, or of all, was said to run; empty where nothing was said. */
export const saidLateness = (
  lateness: readonly SeasonLateness[],
  year: number,
  crop: string | null,
): string => {
  const said = lateness.find((one) => one.year === year && one.crop === crop);
  return said === undefined ? '' : String(said.days);
};

export function presentGround(
  picture: GroundPicture,
  keys: () => FormKeys,
  sentBack: SentBack | null,
): GroundProps {
  const { known, stated, reading, household, reference, today, lateness } = picture;
  const year = yearOf(today);
  const state = statesFrom(keys, sentBack);
  const form = state('ground', statedValues(stated, year));
  const asked = stationChoices(form.values.town, household.altitudeFt, reference.freezeNormals);
  return {
    line: groundLine(picture),
    count: countWords(picture.sources),
    form,
    stations:
      asked.length > 0 && sentBack?.formId === form.formId
        ? asked
        : nearChoices(known, household, reference, reading),
    year: {
      number: year,
      form: state('harvest-year', { days: saidLateness(lateness, year, null) }),
      choices: yearChoices,
    },
  };
}

const statedValues = (stated: StatedGround, year: number): GroundForm['values'] => {
  const day = (monthDay: string | null) => (monthDay === null ? '' : `${year}-${monthDay}`);
  return {
    town: stated.town ?? '',
    station: stated.station ?? '',
    lastFrost: day(stated.lastFrost),
    firstFrost: day(stated.firstFrost),
    strawberriesFrom: day(stated.strawberriesFrom),
  };
};

function groundLine({ known, stated, reading }: GroundPicture): string {
  if (known.from.kind === 'nothing')
    return 'We do not know yet where you grow, so no season can be guessed. Write the nearest town.';
  const freeze = freezeWords(known, reading);
  return `Seasons follow ${groundWords(known, stated, reading)}${freeze === '' ? '' : `: ${freeze}`}.`;
}

function countWords(sources: readonly Source[]): string {
  const guessed = sources.filter(({ windows }) => windows.at(-1)?.datesGuessed === true).length;
  const own = sources.filter(({ windows }) => windows.at(-1)?.datesGuessed === false).length;
  const none = sources.length - guessed - own;
  const parts = [
    ...(guessed > 0 ? [`${guessed} guessed`] : []),
    ...(own > 0 ? [`${own} of your own`] : []),
    ...(none > 0 ? [`${none} without dates`] : []),
  ];
  return parts.length === 0 ? '' : `Sources by their dates: ${parts.join(', ')}.`;
}

/** The station in use and those near it, to take another. */
function nearChoices(
  { station }: KnownGround,
  { altitudeFt }: Household,
  { freezeNormals }: SeasonTables,
  reading: Reading,
): readonly Choice[] {
  if (station === null) return [];
  const near = stationsNear(freezeNormals, station, altitudeFt).filter((one) => one !== station);
  return [station, ...near.slice(0, 4)].map((one) => ({
    value: one.station,
    words: `${stationName(one)}, ${formatAltitude(one.elevationFt, reading)}`,
  }));
}
