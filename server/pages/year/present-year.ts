import { compare } from '../../../shared/compare.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import { type GaveWayRung, gaveWayRungs, type PlannedLeftOver } from '../../../src/planning/plan.ts';
import { rungTolerance } from '../../../src/planning/solving/rungs.ts';
import type { ItemYear } from '../../../src/planning/year/item-year.ts';
import type { YearRow } from '../../../views/pages/year/year-boards.tsx';
import type { YearPageProps } from '../../../views/pages/year/year-page.tsx';
import { formatNumber, formatQuantity, formatWeek } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { insideSentence, listed, sentenceCase } from '../../../views/words/sentences.ts';
import { cropGuessFor } from '../../reference/first-year.ts';
import { givenWords, rungWords, type WishNames, wishName } from '../../words/year/gave-way.ts';
import { bareWords, gapsAhead, runOutSummary, runsOut } from '../../words/year/run-out.ts';

import type { YearPicture } from '../../year/year-picture.ts';
import type { YearReader } from '../shared/present-board.ts';
import { presentBoard } from '../shared/present-board.ts';
import { whyByWish } from './present-reasons.ts';
import { yearWords } from './year-words.ts';

/** Items by who runs out first under the plan, then as the shelf stands, then by name. */
const soonestBareFirst = (items: readonly ItemYear[]): readonly ItemYear[] =>
  [...items].sort(
    (one, other) =>
      compare(runOutOf(one), runOutOf(other)) ||
      compare(one.runOut?.p50 ?? never, other.runOut?.p50 ?? never) ||
      compare(one.item.name, other.item.name),
  );

const never = '9999';
const runOutOf = (itemYear: ItemYear): string => gapsAhead(itemYear)[0]?.begins ?? never;

/** Items with their words and their boards, the soonest to run out first. */
export const presentRows = (
  { picture, reading, crops }: YearReader,
  items: readonly ItemYear[],
): readonly YearRow[] =>
  soonestBareFirst(items).map((itemYear) => rowOf({ itemYear, picture, crops, ...reading }));

// The picture stands until something changes: so do its rows, as long as they are read alike.
const rowOf = whileTheSame(
  'itemYear',
  ({
    itemYear,
    picture,
    crops,
    ...reading
  }: { readonly itemYear: ItemYear } & Omit<YearReader, 'reading'> & Reading): YearRow => {
    const reader = { picture, crops, reading };
    const { sentence: _sentence, ahead: _ahead, ...words } = yearWords(itemYear, reader);
    const { id, name, family } = itemYear.item;
    return {
      key: id,
      item: { name, family },
      href: `/year/${id}`,
      ...words,
      board: presentBoard(itemYear, reader),
    };
  },
);

/** What is put up and whatever else runs out hangs first; what is bought in time is the rest. */
export const hangsFirst = (itemYear: ItemYear): boolean =>
  itemYear.item.kind === 'preserve' || runsOut(itemYear);

/** Of our own garden, week by week, what is more than can be put up and eaten in time; weeks that are past left out. */
export const presentLeftOver = (reader: YearReader): YearPageProps['leftOver'] => {
  const { picture, reading } = reader;
  const [thisWeek] = picture.loaded.year.weeks;
  return (picture.plan?.plan.weeks ?? []).flatMap(({ week, leftOver = [] }) =>
    leftOver.length === 0 || thisWeek === undefined || week < thisWeek
      ? []
      : [
          {
            key: week,
            week: sentenceCase(formatWeek(week, reading)),
            words: listed(leftOver.map((line) => leftOverWords(line, reader))),
          },
        ],
  );
};

const leftOverWords = ({ source, lb }: PlannedLeftOver, { picture, reading }: YearReader): string => {
  const crop = picture.loaded.facts.sources.find(({ id }) => id === source)?.crop;
  return `${formatQuantity(Math.round(lb), 'lb', reading)} of ${crop === undefined ? source : cropGuessFor(crop).plural}`;
};

export const yearSummary = (picture: YearPicture): string =>
  picture.items.some(({ item }) => item.kind === 'preserve')
    ? `${runOutSummary(picture)}${missingWords(picture.items)}`
    : 'Nothing is put up in this household yet.';

const namesSaid = 3;

/** ` You can’t get more of carrots and corn yet; the list says what is missing.`; empty where everything can come. */
const missingWords = (items: readonly ItemYear[]): string => {
  const names = items
    .filter((itemYear) => itemYear.missing !== null && runsOut(itemYear))
    .map(({ item }) => insideSentence(item.name));
  if (names.length === 0) return '';
  const said =
    names.length <= namesSaid + 1
      ? names
      : [...names.slice(0, namesSaid), `${names.length - namesSaid} more`];
  return ` You can’t get more of ${listed(said)} yet; the list says what is missing.`;
};

/** Rungs in the order of wishes, the first the least willing to give way; each with what is missing of what. */
export const presentGaveWay = ({ reading, ...read }: YearReader): YearPageProps['gaveWay'] =>
  gaveWayOf({ ...read, ...reading });

const gaveWayOf = whileTheSame(
  'picture',
  ({ picture, crops, ...reading }: Omit<YearReader, 'reading'> & Reading) => {
    const reader: YearReader = { picture, crops, reading };
    const why = whyByWish(reader.picture.plan, reader.reading);
    return gaveWayRungs.flatMap((rung) => {
      const given = (reader.picture.plan?.plan.gaveWay ?? []).filter((gaveWay) => gaveWay.rung === rung);
      if (given.length === 0) return [];
      const reasons = given.flatMap(({ what }) =>
        (why.get(`${rung} ${what}`) ?? []).map((words) => ({ words, name: wishName(what, namesOf(reader)) })),
      );
      return [
        {
          key: rung,
          rung: rungWords[rung],
          words: givenWords(given, namesOf(reader)).join('; '),
          proof: proofWords(rung, reader),
          why: [...new Set(reasons.map(({ words }) => words))].map((words) => ({
            words,
            names: listed(reasons.filter((one) => one.words === words).map(({ name }) => name)),
          })),
        },
      ];
    });
  },
);

const namesOf = ({ picture, reading }: YearReader): WishNames => ({
  facts: picture.loaded.facts,
  walkOf: (item) => picture.itemYearById.get(item)?.walk ?? null,
  bareOf: (item) => {
    const itemYear = picture.itemYearById.get(item);
    return itemYear === undefined ? null : bareWords(itemYear, picture.asOf);
  },
  reading,
});

/** What was proven about a rung: that no plan serves it better without giving up something above it, or by how much one might. */
const proofWords = (rung: GaveWayRung, { picture, reading }: YearReader): string | null => {
  if (rung === 'cash and hours') return null;
  const name = rung === 'family minimum' || rung === 'group' ? 'family minimums and groups' : rung;
  const served = picture.plan?.plan.rungs.find((candidate) => candidate.name === name);
  if (served === undefined) return null;
  const couldKeep = served.missed - served.atLeast;
  return couldKeep <= 2 * rungTolerance
    ? 'Proven: no plan keeps more of this without giving up something above it.'
    : `Not fully proven: another plan might keep up to ${formatNumber(Math.ceil(couldKeep), reading)} more in all.`;
};
