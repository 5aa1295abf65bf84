import { oneOrMore } from '../../shared/counting.ts';
import { dateFormatter } from '../../shared/formatters.ts';
import type { ReferenceTables } from '../../shared/schemas/reference/tables.ts';
import { addDays, type CalendarDate, weekOf } from '../../shared/week.ts';
import type { Household } from '../../src/household/household.ts';
import { dayLines, linesWithin } from '../../src/planning/days/day-lines.ts';
import { measuresIn } from '../../src/preserving/foods/trade-measures.ts';
import { eatFirst } from '../../src/shelf/eat-first.ts';
import type { LetterPart, LetterProps } from '../../views/mail/letter.tsx';
import { formatDate, formatWeekday } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import { readingOf } from '../../views/words/reading.ts';
import { calendarEntries } from '../calendar/calendar-entries.ts';
import { momentIn } from '../clock.ts';
import type { Database } from '../database/database.ts';
import { canningSessionsOf } from '../queries/canning/canning-sessions.ts';
import { isWritten, mailWish } from '../queries/notices/letters.ts';
import { noticesToTell, type UntoldNotice } from '../queries/notices/untold-notices.ts';
import { sealed } from '../records/notices/address-letters.ts';
import type { NewLetter } from '../records/notices/letters.ts';
import { noticesNow } from '../records/notices/standing-notices.ts';
import { lineText } from '../words/batch-days.ts';
import { amountOf } from '../words/shelf-units.ts';
import { type YearPicture, yearPicture } from '../year/year-picture.ts';

/** Nobody is written to before this hour of their day. */
const earliestHour = 6;
/** A notice due within these days is told at once; the rest waits for the weekly letter. */
const urgentDays = 2;
const eatFirstShown = 8;

export interface LetterSetting {
  readonly db: Database;
  readonly reference: ReferenceTables;
  readonly household: Household;
  readonly at: number;
  /** Where the pages are: the links of a letter begin with it. */
  readonly address: string;
}

/**
 * Letters whose time has come: at most one a week, and an urgent one for what cannot wait for it. Quiet by default: nobody
 * who did not ask gets one, nothing is told twice until it changes, and a week with nothing to say has no letter.
 */
export async function lettersDue(setting: LetterSetting): Promise<readonly NewLetter[]> {
  const { db, household, reference, at } = setting;
  const wish = await mailWish(db, household.id);
  if (wish === null || !wish.isConfirmed) return [];
  const { today } = momentIn(household.timeZone, () => at);
  if (hourIn(household.timeZone, at) < earliestHour) return [];
  await noticesNow(db, household.id, { at, today }, reference);
  const untold = await noticesToTell(db, household.id);
  const due: NewLetter[] = [];
  if (wish.weekly && weekdayOf(today) >= wish.weekday) {
    const about = `weekly ${weekOf(today)}`;
    const letter = (await isWritten(db, household.id, about))
      ? null
      : await weeklyLetter(setting, await yearPicture(db, household.id, today, reference), today, untold);
    if (letter !== null)
      due.push({ about, recipient: wish.address, ...sealed(letter), noticeIds: untold.map(({ id }) => id) });
  }
  const told = new Set(due.flatMap(({ noticeIds }) => noticeIds));
  const urgent = untold.filter((notice) => !told.has(notice.id) && isUrgent(notice, today));
  if (wish.urgent && urgent.length > 0)
    due.push({
      about: `urgent ${urgent
        .map(({ id, changedAt }) => `${id} ${changedAt}`)
        .sort()
        .join(' ')}`,
      recipient: wish.address,
      ...sealed(urgentLetter(setting, urgent)),
      noticeIds: urgent.map(({ id }) => id),
    });
  return due;
}

const hourIn = (timeZone: string, at: number): number =>
  Number(dateFormatter('en-US', { timeZone, hour: 'numeric', hourCycle: 'h23' }).format(new Date(at)));

/** 1 = Monday to 7 = Sunday. */
const weekdayOf = (date: CalendarDate): number => new Date(`${date}T12:00:00Z`).getUTCDay() || 7;

const isUrgent = ({ kind, dueOn }: UntoldNotice, today: CalendarDate): boolean =>
  kind === 'set aside' || (dueOn !== null && dueOn >= today && dueOn <= addDays(today, urgentDays));

const linksOf = ({ address }: LetterSetting): LetterProps['links'] => [
  { words: 'This week', href: `${address}/` },
  { words: 'Shelf', href: `${address}/shelf` },
  { words: 'Which letters you get', href: `${address}/notices/settings` },
];

async function weeklyLetter(
  setting: LetterSetting,
  picture: YearPicture,
  today: CalendarDate,
  untold: readonly UntoldNotice[],
): Promise<LetterProps | null> {
  const { db, household, reference } = setting;
  const reading = readingOf(household, today);
  const days = calendarEntries(
    picture,
    await canningSessionsOf(db, household.id),
    {
      ...picture.loaded.facts,
      reading,
      measuresOf: measuresIn(reference),
    },
    reference,
  ).filter(({ from }) => from >= today && from < addDays(today, 7));
  const ofKind = (kind: 'canning' | 'shopping'): string[] =>
    days
      .filter((entry) => entry.kind === kind)
      .map(({ from, words }) => `${formatWeekday(from, reading)}: ${words.replaceAll('\n', '; ')}`);
  const parts: LetterPart[] = [
    {
      title: 'Before and after the canner',
      lines: linesWithin(dayLines(picture.batches), today, addDays(today, 6))
        .filter(({ kind }) => kind !== 'load')
        .map((line) => lineText(line, reference, reading)),
    },
    { title: 'To can', lines: ofKind('canning') },
    { title: 'To pick and buy', lines: ofKind('shopping') },
    { title: 'Eat first', lines: linesToEatFirst(picture, today, reading) },
    {
      title: 'New or changed',
      lines: untold
        .filter(
          (notice) =>
            notice.kind !== 'best by near' &&
            !(notice.kind === 'stage due' && isThisWeek(notice.dueOn, today)),
        )
        .map(({ reason }) => reason),
    },
  ].filter(({ lines }) => lines.length > 0);
  if (parts.length === 0) return null;
  return {
    locale: household.locale,
    title: `${household.name}: the week from ${formatDate(today, reading)}`,
    opening: 'Your next seven days.',
    parts,
    links: linksOf(setting),
  };
}

/** Stages of the coming days stand in their own part already. */
const isThisWeek = (dueOn: CalendarDate | null, today: CalendarDate): boolean =>
  dueOn !== null && dueOn < addDays(today, 7);

function linesToEatFirst(
  { itemYearById, eatSoonDays }: YearPicture,
  today: CalendarDate,
  reading: Reading,
): string[] {
  const lots = [...itemYearById.values()].flatMap((year) => year.lots);
  return eatFirst(lots, today, eatSoonDays)
    .slice(0, eatFirstShown)
    .flatMap((lot) => {
      const item = itemYearById.get(lot.itemId)?.item;
      if (item === undefined) return [];
      const place = lot.place === null ? '' : `, ${lot.place.name}`;
      return [
        `${item.name}: ${amountOf(item, lot.unitsLeft, reading, lot.jarKind)} marked ${lot.batchCode}${place}, best until ${formatDate(lot.bestQualityUntil, reading)}.`,
      ];
    });
}

const urgentLetter = (setting: LetterSetting, urgent: readonly UntoldNotice[]): LetterProps => ({
  locale: setting.household.locale,
  title: `${setting.household.name}: ${oneOrMore(urgent.length, 'thing that does not wait', 'things that do not wait')}`,
  opening: 'This is due before the weekly letter comes.',
  parts: [
    {
      title: 'Now',
      lines: urgent.map(({ reason }) => reason),
    },
  ],
  links: linksOf(setting),
});
