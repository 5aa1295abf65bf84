import { poundsPerKilogram } from '../../../shared/measures.ts';
import { asCents, type Cents } from '../../../shared/money.ts';
import { formatMoney } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

/** `$1.50 a lb`, `$3.31 a kg` */
export const pricePerWeight = (perLb: Cents, reading: Reading): string =>
  reading.units === 'metric'
    ? `${formatMoney(asCents(perLb * poundsPerKilogram), reading)} a kg`
    : `${formatMoney(perLb, reading)} a lb`;
