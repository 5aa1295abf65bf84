import { counted, isOrAre } from '../../../shared/counting.ts';
import type { Notice } from '../notice.ts';
import type { NoticeGaveWay, NoticePicture } from '../notice-picture.ts';
import { listWords } from '../notice-words.ts';

/** Names said one by one before the rest is only counted; judged, no source. */
const namesShown = 3;

/**
 * One notice for a plan that is short, whatever gave way in it: what will be short, of what only the reserve is, where money
 * or hours do not reach, and how much of the garden's crop is left over. Less than one whole unit over a year is nothing a
 * person could act on (judged, no source) and stays on the page of the year, unless there are weeks without any; of money it is a
 * cent. A thing is named once.
 */
export const targetNotMet = ({ gaveWay }: NoticePicture): Notice[] => {
  const told = gaveWay.filter(({ amount, isBare }) => amount >= 1 || isBare === true);
  const short = named(told, ['family minimum', 'group', 'use']);
  const reserve = named(told, ['reserve', 'variety']).filter(
    ({ key }) => !short.some((one) => one.key === key),
  );
  const sentences = [
    shortWords(short, reserve),
    overdrawnWords(told.filter(({ isMoney }) => isMoney === true)),
    noRoomWords(told.filter(({ rung, isMoney }) => rung === 'cash and hours' && isMoney !== true)),
    leftOverWords(told.filter(({ rung }) => rung === 'garden crop')),
  ].filter((words) => words !== '');
  if (sentences.length === 0) return [];
  return [
    {
      kind: 'target not met',
      subject: 'plan',
      reason: sentences.join(' '),
      dueOn: null,
      about: [...short, ...reserve].map(({ key }) => key),
    },
  ];
};

/** What gave way on some rungs, each thing once, by name. */
const named = (
  told: readonly NoticeGaveWay[],
  rungs: readonly NoticeGaveWay['rung'][],
): readonly NoticeGaveWay[] =>
  told
    .filter(({ rung }) => rungs.includes(rung))
    .filter((wish, at, all) => all.findIndex(({ key }) => key === wish.key) === at)
    .toSorted((one, other) => (one.name < other.name ? -1 : 1));

/** `6 preserves will be short: corn, salsa, plum jam and 3 more; of 2 more only the reserve.` */
function shortWords(short: readonly NoticeGaveWay[], reserve: readonly NoticeGaveWay[]): string {
  if (short.length === 0 && reserve.length === 0) return '';
  if (short.length === 0)
    return `You can eat everything as planned; only the reserve of ${namesWords(reserve)} is short.`;
  const things = short.every(({ isPreserve }) => isPreserve === true) ? 'preserves' : 'things you keep';
  const some =
    short.length === 1
      ? `${namesWords(short)} will be short`
      : `${short.length} ${things} will be short: ${namesWords(short)}`;
  return reserve.length === 0 ? `${some}.` : `${some}; ${reserve.length} more will have a smaller reserve.`;
}

const namesWords = (wishes: readonly NoticeGaveWay[]): string => {
  const names = wishes.map(({ name }) => name);
  return names.length <= namesShown + 1
    ? listWords(names)
    : listWords([...names.slice(0, namesShown), `${names.length - namesShown} more`]);
};

/** The worst of the weeks stands for all. */
function overdrawnWords(weeks: readonly NoticeGaveWay[]): string {
  const [first] = weeks;
  if (first === undefined) return '';
  const worst = weeks.reduce((most, week) => (week.amount > most.amount ? week : most), first);
  const needs = `The plan needs ${worst.words} more in ${worst.name} than you have set aside by then`;
  return weeks.length === 1
    ? `${needs}.`
    : `${needs}, and less in ${counted(weeks.length - 1, 'other week')}.`;
}

/** `There is no room for 1 batch of Peach jam in the week of Feb 8, 2027.` */
const noRoomWords = (batches: readonly NoticeGaveWay[]): string =>
  batches.length === 0
    ? ''
    : `There is no room in your hours and money for ${listWords(amountsOf(batches))}${
        batches.length > namesShown ? ' and more' : ''
      }.`;

const leftOverWords = (crops: readonly NoticeGaveWay[]): string =>
  crops.length === 0
    ? ''
    : `${listWords(amountsOf(crops))} ${crops.length > namesShown ? 'and more ' : ''}from the garden ${isOrAre(crops.length)} left over.`;

/** `4 lb of South bed`, of the first few. */
const amountsOf = (wishes: readonly NoticeGaveWay[]): readonly string[] =>
  wishes.slice(0, namesShown).map(({ words, name }) => `${words} of ${name}`);
