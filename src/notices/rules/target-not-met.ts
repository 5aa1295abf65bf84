import { counted, isOrAre } from '../../../shared/counting.ts';
import type { Notice } from '../notice.ts';
import type { NoticeGaveWay, NoticePicture } from '../notice-picture.ts';
import { amountWords, listWords } from '../notice-words.ts';

/** Names said one by one before the rest is only counted; judged, no source. */
const namesShown = 3;

/**
 * One notice for a plan that is short, whatever gave way in it: what will be short, of what only the reserve is, where money
 * or hours do not reach, and how much of the garden's crop is left over. Less than one whole unit over a year is nothing a
 * person could act on (judged, no source) and stays on the page of the year; money always counts. A thing is named once.
 */
export const targetNotMet = ({ gaveWay }: NoticePicture): Notice[] => {
  const told = gaveWay.filter(({ rung, amount }) => (rung === 'cash and hours' ? amount > 0 : amount >= 1));
  const short = named(told, ['family minimum', 'group', 'use']);
  const reserve = named(told, ['reserve', 'variety']).filter(
    ({ key }) => !short.some((one) => one.key === key),
  );
  const sentences = [
    shortWords(short, reserve),
    overdrawnWords(told.filter(({ rung }) => rung === 'cash and hours')),
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
  const [one, several] = short.every(({ isPreserve }) => isPreserve === true)
    ? ['preserve', 'preserves']
    : ['thing you keep', 'things you keep'];
  const some =
    short.length === 1
      ? `${namesWords(short)} will be short`
      : `${counted(short.length, one, several)} will be short: ${namesWords(short)}`;
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
  const needs = `The plan needs ${amountWords(worst.amount, worst.unit)} more for ${worst.name} than your limits on money and time allow`;
  return weeks.length === 1
    ? `${needs}.`
    : `${needs}, and less in ${counted(weeks.length - 1, 'other week')}.`;
}

const leftOverWords = (crops: readonly NoticeGaveWay[]): string =>
  crops.length === 0
    ? ''
    : `${listWords(crops.slice(0, namesShown).map(({ name, amount, unit }) => `${amountWords(amount, unit)} of ${name}`))} ${
        crops.length > namesShown ? 'and more ' : ''
      }from the garden ${isOrAre(crops.length)} left over.`;
