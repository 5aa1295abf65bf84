import { counted } from '../../../shared/counting.ts';
import type { PrintedRange } from '../../../shared/schemas/reference/cells.ts';
import type { UncannedWayRow } from '../../../shared/schemas/reference/uncanned-way.ts';
import { citationOf, inWords } from '../../../src/preserving/citation.ts';
import type { WayStepsProps } from '../../../views/parts/way-steps.tsx';
import { formatNumber, withCelsius } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';

/** A way of the book as a page shows it. */
export function presentWay(way: UncannedWayRow, reading: Reading): WayStepsProps {
  const span = ({ low, high }: PrintedRange) =>
    low === high
      ? formatNumber(high, reading)
      : `${formatNumber(low, reading)} to ${formatNumber(high, reading)}`;
  const place = way.keeping === 'dried' ? 'In the dryer' : 'Where it stands';
  return {
    steps: way.steps.map((step) => withCelsius(step, reading)),
    figures: [
      ...(way.blanchMinutes === null
        ? []
        : [
            `Blanched ${span(way.blanchMinutes)} ${counted(way.blanchMinutes.high, 'minute').replace(/^\S+ /, '')}${way.blanchMinutes.low === way.blanchMinutes.high ? '' : ', by the size of the pieces'}`,
          ]),
      ...(way.tempF === null ? [] : [withCelsius(`${place}: ${span(way.tempF)} °F`, reading)]),
      ...(way.humidityPercent === null ? [] : [`Humidity ${span(way.humidityPercent)} %`]),
      ...(way.hours === null ? [] : [`About ${span(way.hours)} hours`]),
      ...(way.doneWhen === null ? [] : [`Done when: ${way.doneWhen}`]),
    ],
    note: way.note,
    source: `From ${inWords(citationOf(way))}. For planning only: follow the current official guide.`,
  };
}
