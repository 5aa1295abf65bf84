import type { FastifyRequest } from 'fastify';
import type { CalendarDate, WeekKey } from '../../../shared/week.ts';
import type { StoredPlan } from '../../../src/planning/stored-plan.ts';
import type { WeeksAgainstLimitProps } from '../../../views/charts/weeks-against-limit.tsx';
import type { WeekCardProps } from '../../../views/pages/year/week-card.tsx';
import type { YearWeeksPageProps } from '../../../views/pages/year/year-weeks-page.tsx';
import { formatQuantity, formatWeek } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { insideSentence, listed, sentenceCase } from '../../../views/words/sentences.ts';
import { presentHours, presentJars, presentMoney } from '../../words/buying/weeks-against-limit.ts';
import { gapsAhead } from '../../words/year/run-out.ts';
import type { YearReader } from '../shared/present-board.ts';
import { presentAxis } from '../shared/present-board.ts';

/** The plan's hours, money and jars week by week, as they are drawn and as they are read. */
export type WeeksInFigures = Pick<YearWeeksPageProps, 'hours' | 'money' | 'jars'>;

export const weeksInFigures = (
  plan: StoredPlan | null,
  today: CalendarDate,
  reading: Reading,
): WeeksInFigures => ({
  hours: presentHours(plan, today, reading),
  money: presentMoney(plan, today, reading),
  jars: presentJars(plan, today, reading),
});

/** The week an address asks for by its place from now on; null where it names none. */
export const askedWeek = (request: FastifyRequest): number | null => {
  const { at } = request.query as { at?: unknown };
  return typeof at === 'string' && /^\d{1,2}$/.test(at) ? Number(at) : null;
};

/** One week of the year: what is put up, bought and run out in it, its hours, money and jars. */
export function presentWeekCard(
  reader: YearReader,
  figures: WeeksInFigures,
  at: number | null,
): WeekCardProps | null {
  const { picture, reading } = reader;
  const week = at === null ? undefined : picture.loaded.year.weeks[at];
  if (at === null || week === undefined) return null;
  return {
    axis: presentAxis(reader),
    at,
    title: sentenceCase(formatWeek(week, reading)),
    lines: [
      { what: 'Put up', words: putUpWords(reader, week) },
      { what: 'Runs out', words: runsOutWords(reader, week) },
      { what: 'Kitchen', words: wordsOf(figures.hours, week) },
      { what: 'Money', words: wordsOf(figures.money, week) },
      { what: 'Jars', words: jarsWords(figures.jars, week) },
    ].filter(({ words }) => words !== ''),
  };
}

const wordsOf = (figures: WeeksAgainstLimitProps | null, week: WeekKey): string =>
  figures?.weeks.find(({ key }) => key === week)?.words ?? '';

const plannedWeek = ({ picture }: YearReader, week: WeekKey) =>
  picture.plan?.plan.weeks.find((planned) => planned.week === week);

/** `half-pint jars 81 in use of 105; pint jars 180 in use of 242` */
const jarsWords = (jars: WeeksInFigures['jars'], week: WeekKey): string =>
  jars.map((size) => `${insideSentence(size.name ?? 'jars')} ${wordsOf(size, week)}`).join('; ');

const putUpWords = (reader: YearReader, week: WeekKey): string => {
  const { recipes, items } = reader.picture.loaded.facts;
  const sessions = plannedWeek(reader, week)?.sessions ?? [];
  const named = sessions.map(({ recipe, batches }) => {
    const itemId = recipes.find(({ id }) => id === recipe)?.itemId;
    const name = items.find(({ id }) => id === itemId)?.name ?? recipe;
    return `${name} (${formatQuantity(batches, 'batch', reader.reading)})`;
  });
  return named.length === 0 ? 'nothing' : listed(named);
};

const runsOutWords = ({ picture }: YearReader, week: WeekKey): string =>
  listed(
    picture.items
      .filter((itemYear) => gapsAhead(itemYear).some(({ begins }) => begins === week))
      .map(({ item }) => item.name),
  );
