import { counted } from '../../shared/counting.ts';
import { dateWords } from '../../shared/date-words.ts';
import type { JarSize } from '../../shared/jar.ts';
import type { Problem } from '../../shared/problems.ts';
import type { SourceRow } from '../../shared/schemas/reference/source.ts';
import { calendarDate } from '../../shared/week.ts';
import { inWords } from '../../src/preserving/citation.ts';
import { clockStarts } from '../../src/preserving/day/load-time.ts';
import type { AcidAmount } from '../../src/preserving/lookup/acid-dose.ts';
import { kitchenAmount, shownPressure } from '../../src/preserving/lookup/display-units.ts';
import type { Schedule } from '../../src/preserving/lookup/schedule.ts';
import { type Caution, cautionsFor, everyCaution } from '../../src/preserving/sheet/cautions.ts';
import { needsSterileJars, sterilizingMinutes } from '../../src/preserving/sheet/sterile-jars.ts';
import type {
  CautionLine,
  HelpProps,
  ProcessRefusal,
  ScheduleProps,
  SourceLine,
} from '../../views/pages/canning-day/process-card.tsx';
import { formatAltitude, formatInches, formatNumber } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';

const methodWords: Readonly<Record<Schedule['method'], string>> = {
  'boiling-water': 'boiling-water canner',
  'atmospheric-steam': 'atmospheric steam canner',
  pressure: 'pressure canner',
};

const acidWords: Readonly<Record<AcidAmount['acid'], string>> = {
  bottled_lemon_juice: 'bottled lemon juice',
  citric_acid: 'citric acid',
  vinegar_5pct: 'vinegar of 5%',
};

export const acidInWords = ({ quantity, unit, acid }: AcidAmount): string =>
  `${kitchenAmount(quantity)} ${unit} ${acidWords[acid]}`;

export const jarWords = (jar: JarSize): string =>
  `${jar.replace('-', ' ').replace('half pint', 'half-pint')} jar`;

const bandWords = ({ bandFromFt, bandToFt }: Schedule, reading: Reading): string =>
  bandToFt === null
    ? `${formatNumber(bandFromFt, reading)} ft and above`
    : `${formatNumber(bandFromFt, reading)} to ${formatNumber(bandToFt, reading)} ft`;

/** One published row, whole. Nothing of it is computed here; pressure is shown rounded up. */
export const presentSchedule = (schedule: Schedule, reading: Reading): ScheduleProps => {
  const { psi, gauge, headspaceIn, waterAboveJarsIn, acid, jarRule } = schedule;
  const fact = (name: string, value: string | null) => (value === null ? [] : [{ name, value }]);
  return {
    minutes: formatNumber(schedule.minutes, reading),
    pressure: psi === null ? null : `${shownPressure(psi)} psi`,
    how: `in the ${methodWords[schedule.method]}${gauge === null ? '' : `, ${gauge} gauge`}`,
    facts: [
      ...fact(
        'Jar',
        `${jarWords(schedule.jar)}, ${schedule.pack === 'none' ? 'as the recipe says' : `${schedule.pack} pack`}`,
      ),
      ...fact(
        'Altitude',
        `${formatAltitude(schedule.altitudeFt, reading)}, in the band ${bandWords(schedule, reading)}`,
      ),
      ...fact(
        'Headspace',
        headspaceIn === null
          ? null
          : `${formatInches(headspaceIn, kitchenAmount(headspaceIn), reading)} below the rim`,
      ),
      ...fact(
        'Jars',
        needsSterileJars(schedule)
          ? `boiled empty ${counted(sterilizingMinutes(schedule.altitudeFt), 'minute')} first, filled hot`
          : 'clean and hot',
      ),
      ...fact(
        'Water',
        waterAboveJarsIn === null
          ? null
          : `at least ${formatInches(waterAboveJarsIn, String(waterAboveJarsIn), reading)} above the jars`,
      ),
      ...fact('Clock starts', clockStarts[schedule.method]),
      ...fact('Jar rule', jarRule === null ? null : `${jarRule.rule} (${inWords(jarRule.source)})`),
    ],
    acid: acid === null ? null : acid.oneOf.map(acidInWords).join(', or '),
    source: `${schedule.food}, ${schedule.style}. Source: ${inWords(schedule.source)}`,
  };
};

/** `15 min at 10 psi`; pressure rounded up, as everywhere. */
export const scheduleWords = ({ minutes, psi }: Pick<Schedule, 'minutes' | 'psi'>): string =>
  psi === null ? `${minutes} min` : `${minutes} min at ${shownPressure(psi)} psi`;

/** Why no time can be given, and where it can be mended. */
export const presentRefusal = (problems: readonly Problem[]): ProcessRefusal => ({
  messages: problems.map(({ message }) => message),
  action: actionFor(problems),
});

const kitchenFields = ['altitudeFt', 'gauge', 'gaugeCheckedOn', 'gaugeOffByPsi', 'canner'];

const actionFor = (problems: readonly Problem[]): ProcessRefusal['action'] => {
  const field = String(problems[0]?.path[0] ?? '');
  if (field === 'altitudeFt') return { words: 'Enter the altitude', href: '/kitchen#altitude' };
  return kitchenFields.includes(field) ? { words: 'See your canners', href: '/kitchen#canners' } : null;
};

const altitudeHelp: HelpProps = {
  title: 'How to find your altitude',
  steps: [
    'It is the height of the kitchen above sea level, not of the county seat. A topographic map of the national survey shows it; so does an elevation service on the web, when you point at the house.',
    'Ask the county extension office or the land office, who know it for each township.',
    'A phone or a car tells it only roughly. When the figure lies near the edge of a band, take the higher band.',
    'Canning somewhere else, at a cabin or a friend’s house? The altitude of that kitchen counts.',
  ],
};

const gaugeHelp: HelpProps = {
  title: 'How to tell which gauge a canner has',
  steps: [
    'A round face with a needle that moves over numbers is a dial gauge. It must be checked every year; many extension offices do it.',
    'A weight that sits on the vent and jiggles or rocks is a weighted gauge. It needs no check.',
    'Some canners have both. Then say weighted, if the weight alone holds the pressure.',
  ],
};

/** How to find out what is missing before a time can be given. */
export const helpFor = (problems: readonly Problem[]): readonly HelpProps[] => {
  const fields = problems.map(({ path }) => String(path[0] ?? ''));
  return [
    ...(fields.includes('altitudeFt') ? [altitudeHelp] : []),
    ...(fields.some((field) => field.startsWith('gauge')) ? [gaugeHelp] : []),
  ];
};

/** The cautions of all schedules together, each once; those that always hold when there is no schedule. */
export const presentCautions = (schedules: readonly Schedule[]): readonly CautionLine[] => {
  const all: readonly Caution[] = schedules.length === 0 ? everyCaution : schedules.flatMap(cautionsFor);
  const byText = new Map(all.map((caution) => [caution.text, caution]));
  return [...byText.values()].map(({ text, source }) => ({ key: text, text, source: inWords(source) }));
};

/** The guides behind the schedules, their acid, their jar rules and the cautions, each once, by its short name. */
export const presentSources = (
  schedules: readonly Schedule[],
  sources: readonly SourceRow[],
): readonly SourceLine[] => {
  const cited = new Set([
    ...schedules.flatMap((schedule) => [
      schedule.source.sourceId,
      ...(schedule.jarRule === null ? [] : [schedule.jarRule.source.sourceId]),
      ...(schedule.acid?.oneOf.map(({ source }) => source.sourceId) ?? []),
      ...cautionsFor(schedule).map(({ source }) => source.sourceId),
    ]),
    ...everyCaution.map(({ source }) => source.sourceId),
  ]);
  return sources
    .filter(({ sourceId }) => cited.has(sourceId))
    .map(({ sourceId, publisher, title, edition }) => ({
      key: sourceId,
      words: `${publisher}: ${title}${edition === '' ? '' : `, ${daysInWords(edition)}`}`,
    }));
};

/** An edition that is told by its day says it as a person does. */
const daysInWords = (edition: string): string =>
  edition.replaceAll(/\b\d{4}-\d{2}-\d{2}\b/g, (day) => {
    const read = calendarDate.safeParse(day);
    return read.success ? dateWords(read.data) : day;
  });
