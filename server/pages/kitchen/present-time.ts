import { counted } from '../../../shared/counting.ts';
import { namesAsTyped } from '../../../shared/hands.ts';
import { addDays, type CalendarDate, weekHolding, weeksFrom } from '../../../shared/week.ts';
import {
  type DateSpan,
  type KitchenHours,
  type SessionRule,
  sessionPlaces,
} from '../../../src/household/kitchen.ts';
import { nextSessionDates } from '../../../src/planning/days/session-dates.ts';
import type { DaysOffProps, RemovableLine, TimeProps } from '../../../views/pages/kitchen/time-forms.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatDate, formatWeekday, formatYearlyDay } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed } from '../../../views/words/sentences.ts';
import { plain } from '../../words/plain-number.ts';
import type { StateOfForm } from '../shared/answer-form.ts';
import type { KitchenPicture } from './kitchen-picture.ts';
import { weekWithYear } from './week-with-year.ts';

const sessionsShown = 8;
const weeksLookedAhead = 104;

const placeWords: Readonly<Record<SessionRule['which'], string>> = {
  every: 'every week',
  first: 'the first of the month',
  second: 'the second of the month',
  third: 'the third of the month',
  fourth: 'the fourth of the month',
  last: 'the last of the month',
};

/** `Every Saturday, 5 h`; `The second Saturday of the month, 3 h` */
const ruleWords = ({ weekday, which, hours, who }: SessionRule): string => {
  const day = weekdayWords[weekday - 1] ?? '';
  const days = which === 'every' ? `Every ${day}` : `The ${which} ${day} of the month`;
  return `${days}, ${plain(hours)} h${whoWords(who)}`;
};

/** `, Ann and Ben` */
const whoWords = (who: readonly string[] = []): string => (who.length === 0 ? '' : `, ${listed(who)}`);

type Removable = (id: string, words: string, remove: string) => RemovableLine;

const presentRules = ({ rules = [] }: KitchenHours, removable: Removable): readonly RemovableLine[] =>
  rules.map((rule) => removable(rule.id, ruleWords(rule), `/kitchen/session-days/${rule.id}/removal`));

const presentPauses = (
  { pauses = [] }: KitchenHours,
  reading: Reading,
  today: CalendarDate,
  removable: Removable,
): readonly RemovableLine[] =>
  pauses
    .filter(({ untilOn, eachYear }) => eachYear || untilOn > today)
    .map(({ id, fromOn, untilOn, eachYear }) => {
      const show = eachYear ? formatYearlyDay : formatDate;
      const words = `${show(fromOn, reading)} to ${show(addDays(untilOn, -1), reading)}${eachYear ? ', each year' : ''}`;
      return removable(id, words, `/kitchen/session-pauses/${id}/removal`);
    });

/** The days the rules come to: what plan, canning day and calendar go by. */
const presentNext = (hours: KitchenHours, today: CalendarDate, reading: Reading): readonly string[] =>
  nextSessionDates(
    hours,
    weeksFrom(weekHolding(today, reading.weekStartsOn), weeksLookedAhead),
    today,
    reading.weekStartsOn,
    sessionsShown,
  ).map((day) => `${formatWeekday(day.on, reading)}, ${plain(day.hours)} h${whoWords(day.who)}`);

const weekdayWords = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

export function presentTime(
  { hours, daysOff, today, reading }: KitchenPicture,
  state: StateOfForm,
  newKeys: () => FormKeys,
): TimeProps {
  const removable = (id: string, words: string, remove: string): RemovableLine => ({
    id,
    words,
    remove,
    keys: newKeys(),
  });
  const off = (path: string, spans: readonly DateSpan[]): DaysOffProps => ({
    lines: spans
      .filter((span) => span.untilOn > today)
      .map((span) =>
        removable(
          span.fromOn,
          `${formatDate(span.fromOn, reading)} to ${formatDate(addDays(span.untilOn, -1), reading)}`,
          `/kitchen/${path}/${span.fromOn}/removal`,
        ),
      ),
    form: state(path, { fromOn: '', lastOn: '' }),
  });
  return {
    usual: state('time', {
      sessionsPerWeek: String(hours.sessionsPerWeek),
      hoursPerSession: plain(hours.hoursPerSession),
      setUpMinutes: String(hours.setUpMinutes),
      stoveBurners: String(hours.stoveBurners),
      sessionWeekday: String(hours.sessionWeekday),
      who: namesAsTyped(hours.who ?? []),
    }),
    rules: presentRules(hours, removable),
    rule: state('session-days', {
      weekday: '6',
      which: 'every',
      hours: plain(hours.hoursPerSession),
      who: '',
    }),
    whiches: sessionPlaces.map((place) => ({ value: place, words: placeWords[place] })),
    pauses: presentPauses(hours, reading, today, removable),
    pause: state('session-pauses', { fromOn: '', lastOn: '', eachYear: false }),
    next: presentNext(hours, today, reading),
    weekdays: weekdayWords.map((words, index) => ({ value: String(index + 1), words })),
    namedWeeks: hours.weeks
      .filter(({ week }) => week >= weekHolding(today, reading.weekStartsOn))
      .map((week) => {
        const days = week.sessions === 0 ? 'no canning' : counted(week.sessions, 'canning day');
        const length = week.hoursPerSession === null ? '' : ` of ${plain(week.hoursPerSession)} h`;
        const why = week.reason === null ? '' : `: ${week.reason}`;
        return removable(
          week.week,
          `${weekWithYear(week.week, reading)}, ${days}${week.sessions === 0 ? '' : length}${why}`,
          `/kitchen/weeks/${week.week}/removal`,
        );
      }),
    week: state('week', { dayInWeek: '', sessions: '', hoursPerSession: '', reason: '' }),
    away: off('away', daysOff.away),
    schoolHolidays: off('school-holidays', daysOff.schoolHolidays),
  };
}
