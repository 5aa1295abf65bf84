import type { Item } from '../../../src/household/item.ts';
import type { LotOnShelf } from '../../../src/household/lot.ts';
import type { LotPageProps } from '../../../views/pages/set-aside/lot-page.tsx';
import type { AsideLot } from '../../../views/pages/set-aside/set-aside-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatAltitude, formatDate, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { LotEvidence } from '../../queries/shelf/evidence.ts';
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
    evidence: evidence === null ? [] : evidenceFacts(evidence, reading),
    noEvidence:
      lot.origin === 'put-up'
        ? 'Nothing is written down about its processing.'
        : 'It was not processed here, so nothing is known about it.',
    aside: lot.setAside?.reason ?? null,
    isEmpty: lot.unitsLeft <= 0,
    takeFrom: `/shelf/${item.id}?lot=${lot.id}`,
  };
}

const evidenceFacts = (evidence: LotEvidence, reading: Reading): LotPageProps['evidence'] => [
  {
    name: 'Canner',
    value: `${evidence.cannerName}, ${evidence.method.replace('-', ' ')}${evidence.gauge === null ? '' : `, ${evidence.gauge} gauge`}`,
  },
  { name: 'Minutes run', value: formatNumber(evidence.minutesRun, reading) },
  ...(evidence.psi === null
    ? []
    : [{ name: 'Pressure', value: `${formatNumber(evidence.psi, reading)} psi` }]),
  { name: 'Altitude', value: formatAltitude(evidence.altitudeFt, reading) },
  { name: 'Published row', value: evidence.scheduleRow.replaceAll('|', ' · ') },
  {
    name: 'Acid in every jar',
    value: evidence.acidTicked === null ? 'none asked for' : evidence.acidTicked ? 'ticked' : 'not ticked',
  },
  { name: 'Who', value: evidence.doneBy },
];

export const presentAside = (item: Item, lot: LotOnShelf, keys: FormKeys, reading: Reading): AsideLot => ({
  lotId: lot.id,
  item: { name: item.name, family: item.family },
  words: `${amountOf(item, lot.unitsLeft, reading, lot.jarKind)}, batch ${lot.batchCode} of ${formatDate(lot.madeOn, reading)}`,
  reason: lot.setAside?.reason ?? '',
  href: `/batches/${lot.id}`,
  keys,
});
