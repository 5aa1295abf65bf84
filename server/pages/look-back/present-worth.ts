import { counted } from '../../../shared/counting.ts';
import { asCents, type Cents } from '../../../shared/money.ts';
import type { LookBack } from '../../../src/look-back/look-back.ts';
import type { PutUpWorth, Worth } from '../../../src/look-back/worth.ts';
import type { WorthProps } from '../../../views/pages/look-back/worth.tsx';
import { formatMoney, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { amountOf } from '../../words/shelf-units.ts';

/** What the year's putting up was worth beside a store: by food, in all, and of what is still on the shelf. */
export function presentWorth({ worth, shelf }: LookBack, reading: Reading): WorthProps {
  const longest = Math.max(1, ...worth.items.flatMap(({ home, store }) => [home, store]));
  return {
    heading: headingOf(worth, reading),
    words: [
      ...inAllWords(worth, reading),
      ...(shelf.items === 0
        ? []
        : [
            `What is on the shelf today would cost about ${formatMoney(shelf.store, reading, true)} in a store, counting the ${counted(shelf.items, 'food')} with a known price.`,
          ]),
    ],
    bars: worth.items.map((line) => ({
      key: line.item.id,
      item: { name: line.item.name, family: line.item.family, href: `/items/${line.item.id}#packs` },
      words: savedWords(savedAsShown(line), reading),
      told: toldOf(line, reading),
      home: line.home / longest,
      store: line.store / longest,
    })),
    unknown: worth.unknown.map(({ id, name, family }) => ({
      name,
      family,
      href: `/items/${id}#packs`,
    })),
  };
}

const headingOf = (worth: Worth, reading: Reading): string =>
  worth.items.length === 0 ? 'no store price known' : savedWords(savedAsShown(worth), reading);

/** Both sums stand there in whole units of money; their difference is that of what stands there. */
const savedAsShown = ({ home, store }: { readonly home: Cents; readonly store: Cents }): Cents =>
  asCents(100 * (Math.round(store / 100) - Math.round(home / 100)));

/** `$23 saved`, `$4 more than in a store` */
const savedWords = (saved: number, reading: Reading): string => {
  const amount = formatMoney(asCents(Math.abs(saved)), reading, true);
  return saved >= 0 ? `${amount} saved` : `${amount} more than in a store`;
};

const toldOf = ({ item, units, home, store, price }: PutUpWorth, reading: Reading): string =>
  `${amountOf(item, units, reading)}: ${formatMoney(home, reading, true)} here, ${formatMoney(store, reading, true)} in a store${price.from === 'paid' ? ', at what you paid for those you bought' : ''}.`;

function inAllWords(worth: Worth, reading: Reading): string[] {
  const { items, home, store, minutes, savedPerHour } = worth;
  if (items.length === 0) return [];
  const saved = savedAsShown(worth);
  const hours = counted(formatNumber(minutes / 60, reading, 0), 'hour');
  const begins = `What you put up of ${counted(items.length, 'food')} would have cost ${formatMoney(store, reading, true)} in a store. Here it took ${formatMoney(home, reading, true)} and ${hours} of work`;
  if (saved < 0)
    return [`${begins}: ${formatMoney(asCents(-saved), reading, true)} more, for food of your own.`];
  return [
    savedPerHour === null
      ? `${begins}: ${formatMoney(saved, reading, true)} less.`
      : `${begins}: ${formatMoney(saved, reading, true)} less, or ${formatMoney(savedPerHour, reading)} for each hour.`,
  ];
}
