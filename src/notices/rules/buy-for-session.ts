import { counted } from '../../../shared/counting.ts';
import { groupedBy } from '../../../shared/grouped-by.ts';
import { addDays } from '../../../shared/week.ts';
import { dayMark } from '../marks.ts';
import { boughtOf, missingBySession, type SessionShortfall } from '../missing-by-session.ts';
import type { Notice } from '../notice.ts';
import type { NoticePicture, SessionNeed } from '../notice-picture.ts';
import { amountWords, listWords, packsWords, weekOfWords } from '../notice-words.ts';

/**
 * What the planned canning of a week needs and the house does not have, from `leadDays` before the shopping day until its last
 * canning day is over. It is due on the shopping day before the canning, or before the soak or brine that begins earlier; once
 * that is past, on the day before; then on the day itself. Sessions of earlier weeks are served from what is on hand first.
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
        `${needWords(need)} ${notBefore < by ? `between ${dayMark(notBefore)} and ${dayMark(by)}` : `on ${dayMark(by)}`} (it keeps ${counted(keepsDays, 'day')} at most)`,
    );
    const makes = [...new Set(due.flatMap((one) => one.makes))].sort();
    return [
      {
        kind: 'buy for a session',
        subject: `fresh:${week}`,
        reason: `Buy ${listWords(words)}, not earlier, for ${listWords(makes)} in ${weekOfWords(week, weekStartsOn)}.`,
        dueOn: first.by,
      },
    ];
  });

const storesForSession = (picture: NoticePicture, leadDays: number): Notice[] =>
  missingBySession(picture.sessions, picture.onHand)
    .filter(
      ({ buyBy, lastDay, missing }) =>
        missing.length > 0 && picture.asOf >= addDays(buyBy, -leadDays) && picture.asOf <= lastDay,
    )
    .map((session) => ({
      kind: 'buy for a session',
      subject: `week:${session.week}`,
      ...dueWords(session, picture.asOf),
    }));

const dueWords = (
  session: SessionShortfall,
  asOf: NoticePicture['asOf'],
): Pick<Notice, 'reason' | 'dueOn'> => {
  const { on, buyBy, lastDay, makes, missing } = session;
  const buy = `Buy ${listWords(missing.map(needWords))}`;
  if (asOf >= on)
    return {
      reason: `${buy} before you put up ${listWords(makes)} this week.`,
      dueOn: asOf === on ? on : lastDay,
    };
  const dueOn = asOf <= buyBy ? buyBy : addDays(on, -1);
  return {
    reason: `${buy} by ${dayMark(dueOn)}, for ${listWords(makes)}, ${beginsWords(session)}.`,
    dueOn,
  };
};

const beginsWords = ({ on, isBegunBefore, lastDay }: SessionShortfall): string =>
  isBegunBefore
    ? `begun on ${dayMark(on)}`
    : // What is frozen, dried or stored is put up on such a day too.
      `put up ${on === lastDay ? 'on' : 'from'} ${dayMark(on)}${on === lastDay ? '' : ' on'}`;

/** `4 lb of dry pinto beans (1 pack)`: as the shopping list has it, else in the whole packs that are needed. */
const needWords = (need: SessionNeed): string => {
  const { name, quantity, unit, pack, onList } = need;
  const packs = pack === undefined || pack <= 0 ? null : Math.ceil(quantity / pack - 1e-9);
  const bought = onList ?? { quantity: boughtOf(need), packs };
  const amount =
    unit === null
      ? amountWords(bought.quantity, { one: name, many: name })
      : `${amountWords(bought.quantity, unit)} of ${name}`;
  return `${amount}${packsWords(bought.packs)}`;
};
