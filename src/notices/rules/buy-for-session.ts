import { addDays, daysOfWeek, mondayOf, type WeekKey, type WeekStart } from '../../../shared/week.ts';
import { missingBySession } from '../missing-by-session.ts';
import type { Notice } from '../notice.ts';
import type { NoticePicture, SessionNeed } from '../notice-picture.ts';
import { amountWords, dateWords, listWords, weekOfWords } from '../notice-words.ts';

/**
 * What a planned session needs and the house does not have, from `leadDays` before its week begins until that week is over, weeks
 * being the household's own. Sessions of earlier weeks are served from what is on hand first. Once the week has begun there is no
 * day before it left to name: it is then to be bought before the canning.
 */
export const buyForSession = (picture: NoticePicture, leadDays: number): Notice[] =>
  missingBySession(picture.sessions, picture.onHand)
    .map((session) => ({ ...session, ...edgesOf(session.week, picture.weekStartsOn) }))
    .filter(
      ({ firstDay, lastDay, missing }) =>
        missing.length > 0 && picture.asOf >= addDays(firstDay, -leadDays) && picture.asOf <= lastDay,
    )
    .map(({ week, makes, missing, firstDay, lastDay }) => ({
      kind: 'buy for a session',
      subject: `week:${week}`,
      ...(picture.asOf < firstDay
        ? {
            reason:
              `Buy ${listWords(missing.map(needWords))} by ${dateWords(addDays(firstDay, -1))}: ` +
              `${weekOfWords(week, picture.weekStartsOn)} makes ${listWords(makes)}.`,
            dueOn: addDays(firstDay, -1),
          }
        : {
            reason: `Buy ${listWords(missing.map(needWords))} before this week's canning: ${listWords(makes)}.`,
            dueOn: lastDay,
          }),
      action: { label: 'See the buying list', key: 'see buying list', of: week },
    }));

const edgesOf = (week: WeekKey, startsOn: WeekStart) => {
  const [firstDay = mondayOf(week)] = daysOfWeek(week, startsOn);
  return { firstDay, lastDay: addDays(firstDay, 6) };
};

const needWords = ({ name, quantity, unit }: SessionNeed): string =>
  unit === null
    ? amountWords(quantity, { one: name, many: name })
    : `${amountWords(quantity, unit)} of ${name}`;
