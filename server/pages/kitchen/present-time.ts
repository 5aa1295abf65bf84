import { addDays, weekOf } from '../../../shared/week.ts';
import type { DateSpan } from '../../../src/household/kitchen.ts';
import type { DaysOffProps, RemovableLine, TimeProps } from '../../../views/pages/kitchen/time-forms.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatDate } from '../../../views/words/format.ts';
import { plain } from '../../words/plain-number.ts';
import type { KitchenPicture, State } from './kitchen-picture.ts';
import { weekWithYear } from './week-with-year.ts';

const weekdayWords = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

export function presentTime(
  { hours, daysOff, today, reading }: KitchenPicture,
  state: State,
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
    }),
    weekdays: weekdayWords.map((words, index) => ({ value: String(index + 1), words })),
    namedWeeks: hours.weeks
      .filter(({ week }) => week >= weekOf(today))
      .map((week) => {
        const days =
          week.sessions === 0
            ? 'no canning'
            : `${week.sessions} ${week.sessions === 1 ? 'canning day' : 'canning days'}`;
        const length = week.hoursPerSession === null ? '' : ` of ${plain(week.hoursPerSession)} h`;
        const why = week.reason === null ? '' : `: ${week.reason}`;
        return removable(
          week.week,
          `${weekWithYear(week.week, reading)}, ${days}${week.sessions === 0 ? '' : length}${why}`,
          `/kitchen/weeks/${week.week}/removal`,
        );
      }),
    week: state('weeks', { dayInWeek: '', sessions: '', hoursPerSession: '', reason: '' }),
    away: off('away', daysOff.away),
    schoolHolidays: off('school-holidays', daysOff.schoolHolidays),
  };
}
