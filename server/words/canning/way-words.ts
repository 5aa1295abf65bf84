import { counted } from '../../../shared/counting.ts';
import type { PrintedRange } from '../../../shared/schemas/reference/cells.ts';
import type { UncannedWayRow } from '../../../shared/schemas/reference/uncanned-way.ts';
import { citationOf, inWords } from '../../../src/preserving/citation.ts';
import type { WayStepsProps } from '../../../views/parts/way-steps.tsx';
import { formatNumber, formatQuantity, withCelsius, withMetric } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

/** `1 to 1.5`, `2` */
export const spanWords = ({ low, high }: PrintedRange, reading: Reading): string =>
  low === high
    ? formatNumber(high, reading)
    : `${formatNumber(low, reading)} to ${formatNumber(high, reading)}`;

/** `1 to 1.5 lb` */
export const poundsWords = ({ low, high }: PrintedRange, reading: Reading): string =>
  low === high
    ? formatQuantity(high, 'lb', reading)
    : reading.units === 'metric'
      ? `${formatQuantity(low, 'lb', reading)} to ${formatQuantity(high, 'lb', reading)}`
      : `${formatNumber(low, reading)} to ${formatQuantity(high, 'lb', reading)}`;

/** A way of the book as a page shows it. */
export function presentWay(way: UncannedWayRow, reading: Reading): WayStepsProps {
  const { blanchMinutes: blanched, hours } = way;
  const place = way.keeping === 'dried' ? 'In the dryer' : 'Where it stands';
  return {
    steps: way.steps.map((step) => withMetric(step, reading)),
    figures: [
      ...(blanched === null
        ? []
        : [
            `Blanched ${counted(spanWords(blanched, reading), 'minute')}${blanched.low === blanched.high ? '' : ', by the size of the pieces'}`,
          ]),
      ...(way.tempF === null ? [] : [withCelsius(`${place}: ${spanWords(way.tempF, reading)} °F`, reading)]),
      ...(way.humidityPercent === null ? [] : [`Humidity ${spanWords(way.humidityPercent, reading)}%`]),
      ...(hours === null ? [] : [`About ${counted(spanWords(hours, reading), 'hour')}`]),
      ...(way.doneWhen === null ? [] : [`Done when: ${way.doneWhen}`]),
    ],
    note: way.note === null ? null : withMetric(way.note, reading),
    source: `From ${inWords(citationOf(way))}. For planning only: follow the current official guide.`,
  };
}
