import { families } from '../../shared/family.ts';
import { asCents } from '../../shared/money.ts';
import type { GaveWay } from '../../src/planning/plan.ts';
import type { BoardFamily } from '../../views/charts/year-picture.tsx';
import type { PictureOfYear, YearPageProps } from '../../views/pages/year/year-page.tsx';
import type { YearRow } from '../../views/pages/year/year-table.tsx';
import { formatMoney, formatNumber } from '../../views/words/format.ts';
import type { ItemYear, YearPicture } from '../year/year-picture.ts';
import { amountOf } from './shelf-units.ts';
import { monthsAmong } from './weeks-against-limit.ts';
import { presentBoard } from './year-board.ts';
import { weeksBare, type YearReader, yearWords } from './year-words.ts';

/** Items by who runs out first under the plan, then as the shelf stands, then by name. */
export const soonestBareFirst = (items: readonly ItemYear[]): readonly ItemYear[] =>
  [...items].sort(
    (one, other) =>
      compare(runOutOf(one.projection), runOutOf(other.projection)) ||
      compare(runOutOf(one.withoutPlan), runOutOf(other.withoutPlan)) ||
      compare(one.item.name, other.item.name),
  );

const never = '9999';
const runOutOf = (projection: ItemYear['projection']): string => projection?.runOut.p50 ?? never;
const compare = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);

export const presentRows = (reader: YearReader, kind: ItemYear['item']['kind']): readonly YearRow[] =>
  soonestBareFirst(reader.picture.items.filter(({ item }) => item.kind === kind)).map((itemYear) => {
    const { sentence: _sentence, ...words } = yearWords(itemYear, reader);
    const { id, name, family } = itemYear.item;
    return { key: id, item: { name, family, href: `/year/${id}` }, ...words };
  });

/** Boards under their family, the soonest bare first; only what is put up hangs here. */
export const presentPicture = (reader: YearReader, items: readonly ItemYear[]): PictureOfYear => {
  const { weeks } = reader.picture.loaded.year;
  const sorted = soonestBareFirst(items);
  return {
    title: 'The year on the shelf',
    weekCount: weeks.length,
    months: monthsAmong(weeks, reader.reading),
    families: families.flatMap((family): BoardFamily[] => {
      const boards = sorted.filter(({ item }) => item.family === family);
      return boards.length === 0
        ? []
        : [{ family, boards: boards.map((itemYear) => presentBoard(itemYear, reader)) }];
    }),
  };
};

export const yearSummary = ({ items, plan }: YearPicture): string => {
  const preserves = items.filter(({ item }) => item.kind === 'preserve');
  if (preserves.length === 0) return 'Nothing is put up in this household yet.';
  const bare = preserves.filter((itemYear) => weeksBare(itemYear) > 0).length;
  const under = plan === null ? 'As the shelf stands' : 'If the plan is carried out';
  if (bare === 0) return `${under}, no board goes bare before it can be filled again.`;
  return `${under}, ${bare} of ${preserves.length} boards likely ${bare === 1 ? 'goes' : 'go'} bare before ${bare === 1 ? 'it' : 'they'} can be filled again.`;
};

const rungWords: Readonly<Record<GaveWay['rung'], string>> = {
  'cash and hours': 'Money and hours',
  'garden crop': 'Our own crop',
  'family minimum': 'Family minimum',
  group: 'Group',
  use: 'What you eat',
  reserve: 'Reserve',
  variety: 'Variety',
  freshness: 'Freshness',
};

/** Each wish that gave way, with how much is missing. */
export const presentGaveWay = ({ picture, reading }: YearReader): YearPageProps['gaveWay'] =>
  (picture.plan?.plan.gaveWay ?? []).map((gaveWay, place) => {
    const item = picture.items.find((itemYear) => itemYear.item.id === gaveWay.what)?.item;
    const source = picture.loaded.facts.sources.find(({ id }) => id === gaveWay.what);
    const name = item?.name ?? source?.name ?? gaveWay.what.replaceAll('-', ' ');
    const amount =
      item !== undefined
        ? amountOf(item, Math.round(gaveWay.amount * 10) / 10, reading)
        : gaveWay.unit === 'cents'
          ? formatMoney(asCents(gaveWay.amount), reading)
          : `${formatNumber(gaveWay.amount, reading)} ${gaveWay.unit}`;
    return {
      key: `${gaveWay.rung}-${gaveWay.what}-${place}`,
      words: `${rungWords[gaveWay.rung]}: ${name}, ${amount} short.`,
    };
  });
