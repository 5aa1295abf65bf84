import { groupedBy } from '../../../shared/grouped-by.ts';
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
export const buyForSession = (picture: NoticePicture, leadDays: number): Notice[] => [
  ...storesForSession(picture, leadDays),
  ...freshForSession(picture),
];

/** From the day before it may be bought: what would spoil is not spoken of earlier, whatever the lead. */
const freshLeadDays = 1;

/** Raw meat and the like, told apart: bought neither in an earlier week nor with the rest. */
const freshForSession = ({ fresh, asOf, weekStartsOn }: NoticePicture): Notice[] =>
  [...groupedBy(fresh, ({ week }) => week)].flatMap(([week, needs]): Notice[] => {
    const due = needs.filter(
      ({ notBefore, forDay }) => asOf >= addDays(notBefore, -freshLeadDays) && asOf <= forDay,
    );
    const [first] = due;
    if (first === undefined) return [];
    const words = due.map(
      ({ need, notBefore, by, keepsDays }) =>
        `${needWords(need)} ${notBefore < by ? `between ${dateWords(notBefore)} and ${dateWords(by)}` : `on ${dateWords(by)}`} (it stands ${keepsDays} ${keepsDays === 1 ? 'day' : 'days'} at most)`,
    );
    const makes = [...new Set(due.flatMap((one) => one.makes))].sort();
    return [
      {
        kind: 'buy for a session',
        subject: `fresh:${week}`,
        reason: `Buy ${listWords(words)}, not earlier: ${weekOfWords(week, weekStartsOn)} makes ${listWords(makes)}.`,
        dueOn: first.by,
        action: { label: 'See the buying list', key: 'see buying list', of: week },
      },
    ];
  });

const storesForSession = (picture: NoticePicture, leadDays: number): Notice[] =>
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
