import { addDays, mondayOf, sundayOf } from '../../../shared/week.ts';
import { missingBySession } from '../missing-by-session.ts';
import type { Notice } from '../notice.ts';
import type { NoticePicture, SessionNeed } from '../notice-picture.ts';
import { amountWords, dateWords, listWords, weekOfWords } from '../notice-words.ts';

/**
 * What a planned session needs and the house does not have, from `leadDays` before the Monday of its week until that week
 * is over. Sessions of earlier weeks are served from what is on hand first. Once the week has begun there is no Sunday
 * before it left to name: it is then to be bought before the canning.
 */
export const buyForSession = (picture: NoticePicture, leadDays: number): Notice[] =>
  missingBySession(picture.sessions, picture.onHand)
    .filter(
      ({ week, missing }) =>
        missing.length > 0 &&
        picture.asOf >= addDays(mondayOf(week), -leadDays) &&
        picture.asOf < addDays(mondayOf(week), 7),
    )
    .map(({ week, makes, missing }) => ({
      kind: 'buy for a session',
      subject: `week:${week}`,
      ...(picture.asOf < mondayOf(week)
        ? {
            reason:
              `Buy ${listWords(missing.map(needWords))} by ${dateWords(addDays(mondayOf(week), -1))}: ` +
              `${weekOfWords(week, picture.weekStartsOn)} makes ${listWords(makes)}.`,
            dueOn: addDays(mondayOf(week), -1),
          }
        : {
            reason: `Buy ${listWords(missing.map(needWords))} before this week's canning: ${listWords(makes)}.`,
            dueOn: sundayOf(week),
          }),
      action: { label: 'See the buying list', key: 'see buying list', of: week },
    }));

const needWords = ({ name, quantity, unit }: SessionNeed): string =>
  unit === null
    ? amountWords(quantity, { one: name, many: name })
    : `${amountWords(quantity, unit)} of ${name}`;
