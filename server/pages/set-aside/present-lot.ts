import { counted } from '../../../shared/counting.ts';
import type { ProcessTimeRow } from '../../../shared/schemas/reference/process-time.ts';
import type { Item } from '../../../src/household/item.ts';
import type { LotOnShelf } from '../../../src/household/lot.ts';
import { shownPressure } from '../../../src/preserving/lookup/display-units.ts';
import { rowKeyOf } from '../../../src/preserving/lookup/process-lookup.ts';
import type { LotPageProps } from '../../../views/pages/set-aside/lot-page.tsx';
import type { AsideLot } from '../../../views/pages/set-aside/set-aside-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatAltitude, formatDate, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { LotEvidence } from '../../queries/shelf/evidence.ts';
import { jarWords } from '../../words/process-words.ts';
import { amountOf } from '../../words/shelf-units.ts';

const originWords: Readonly<Record<LotOnShelf['origin'], string>> = {
  'put-up': 'put up here',
  bought: 'bought',
  received: 'received from others, process unknown',
};

export function presentLot(
  item: Item,
  lot: LotOnShelf,
  evidence: LotEvidence | null,
  reading: Reading,
  printed: readonly ProcessTimeRow[],
): Pick<
  LotPageProps,
  'lotId' | 'item' | 'code' | 'facts' | 'evidence' | 'noEvidence' | 'aside' | 'isEmpty' | 'takeFrom'
> {
  return {
    lotId: lot.id,
    item: { name: item.name, family: item.family },
    code: lot.batchCode,
    facts: [
      { name: 'Left', value: amountOf(item, lot.unitsLeft, reading, lot.jarKind) },
      { name: 'How it came', value: `${originWords[lot.origin]}, ${formatDate(lot.madeOn, reading)}` },
      { name: 'Ready from', value: formatDate(lot.readyFrom, reading) },
      { name: 'Best quality until', value: formatDate(lot.bestQualityUntil, reading) },
      ...(lot.place === null ? [] : [{ name: 'Where', value: lot.place.name }]),
    ],
    evidence: evidence === null ? [] : evidenceFacts(evidence, reading, printed),
    noEvidence:
      lot.origin === 'put-up'
        ? 'Nothing is written down about its processing.'
        : 'It was not processed here, so nothing is known about it.',
    aside: lot.setAside?.reason ?? null,
    isEmpty: lot.unitsLeft <= 0,
    takeFrom: `/shelf/${item.id}?lot=${lot.id}`,
  };
}

const evidenceFacts = (
  evidence: LotEvidence,
  reading: Reading,
  printed: readonly ProcessTimeRow[],
): LotPageProps['evidence'] => [
  {
    name: 'Canner',
    value: `${evidence.cannerName}, ${evidence.method.replace('-', ' ')}${evidence.gauge === null ? '' : `, ${evidence.gauge} gauge`}`,
  },
  { name: 'Minutes run', value: formatNumber(evidence.minutesRun, reading) },
  ...(evidence.psi === null
    ? []
    : [{ name: 'Pressure', value: `${formatNumber(evidence.psi, reading)} psi` }]),
  { name: 'Altitude', value: formatAltitude(evidence.altitudeFt, reading) },
  { name: 'Published process', value: rowWords(evidence.scheduleRow, reading, printed) },
  {
    name: 'Acid in every jar',
    value: evidence.acidTicked === null ? 'none asked for' : evidence.acidTicked ? 'ticked' : 'not ticked',
  },
  { name: 'Who', value: evidence.doneBy },
];

/** `Tomatoes, crushed: no added liquid, hot pack, quart jar, 1,001 to 3,000 ft: 50 minutes`; a row no table prints any more is not named. */
function rowWords(key: string, reading: Reading, printed: readonly ProcessTimeRow[]): string {
  const row = printed.find((one) => rowKeyOf(one) === key);
  if (row === undefined) return 'from a table that has changed since';
  const { food, style, pack, jar, altitudeFromFt, altitudeToFt, minutes, psi } = row;
  const band =
    altitudeToFt === null
      ? `${formatNumber(altitudeFromFt, reading)} ft and above`
      : `${formatNumber(altitudeFromFt, reading)} to ${formatNumber(altitudeToFt, reading)} ft`;
  const how = `${pack === 'none' ? '' : `${pack} pack, `}${jarWords(jar)}, ${band}`;
  return `${food}: ${style}, ${how}: ${counted(minutes, 'minute')}${psi === null ? '' : ` at ${shownPressure(psi)} psi`}`;
}

export const presentAside = (item: Item, lot: LotOnShelf, keys: FormKeys, reading: Reading): AsideLot => ({
  lotId: lot.id,
  item: { name: item.name, family: item.family },
  words: `${amountOf(item, lot.unitsLeft, reading, lot.jarKind)}, batch ${lot.batchCode} of ${formatDate(lot.madeOn, reading)}`,
  reason: lot.setAside?.reason ?? '',
  href: `/batches/${lot.id}`,
  keys,
});
