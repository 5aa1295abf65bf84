import { drawCount, drawGamma, type Random } from '../../../src/shelf/draws.ts';
import { between, oneOf, wholeBetween } from './luck.ts';

/** How a household eats one item; a process is fixed for a household, its weeks are drawn for every path. */
export interface UseProcess {
  readonly kind: UseKind;
  /** Units of an ordinary week, over a year. */
  readonly perWeek: number;
  /** Of `seasonal`: the week of the calendar year at which use is highest. */
  readonly peakWeek: number;
  /** Of `changing`: weeks from the first lived one (before it: negative) at which the habit changes, and by what factor. */
  readonly changesAt: number;
  readonly changesBy: number;
}

const useKinds = ['steady', 'bursty', 'seasonal', 'changing', 'feasts', 'alternating'] as const;
type UseKind = (typeof useKinds)[number];

export function drawProcess(random: Random, perWeek: number): UseProcess {
  return {
    kind: oneOf(random, useKinds),
    perWeek,
    peakWeek: wholeBetween(random, 0, 51),
    changesAt: wholeBetween(random, -26, 30),
    changesBy: random() < 0.5 ? between(random, 0.4, 0.7) : between(random, 1.4, 2),
  };
}

const seasonSwing = 0.8;
/** A bursty household eats by a rate that is itself drawn every week: variance = mean + mean² / shape. */
const burstShape = 0.8;
const feastsPerYear = 3;
const feastWeeksOfUse = 5;

/**
 * Units wanted in each week; `firstWeek` counts from the first lived one, `calendarWeek` is that one's place in its year. In
 * weeks away nothing is eaten.
 */
export function drawUse(
  process: UseProcess,
  { firstWeek, weeks, calendarWeek, isAway }: UseSpan,
  random: Random,
): number[] {
  return Array.from({ length: weeks }, (_, at) => {
    const units = unitsIn(process, firstWeek + at, calendarWeek, random);
    return isAway(firstWeek + at) ? 0 : units;
  });
}

export interface UseSpan {
  readonly firstWeek: number;
  readonly weeks: number;
  readonly calendarWeek: number;
  readonly isAway: (week: number) => boolean;
}

function unitsIn(process: UseProcess, week: number, calendarWeek: number, random: Random): number {
  const { kind, perWeek, peakWeek, changesAt, changesBy } = process;
  switch (kind) {
    case 'steady':
      return drawCount(perWeek, 1, random);
    case 'bursty':
      return drawCount((perWeek * drawGamma(burstShape, random)) / burstShape, 1, random);
    case 'seasonal': {
      const angle = (2 * Math.PI * (calendarWeek + week - peakWeek)) / 52;
      return drawCount(perWeek * (1 + seasonSwing * Math.cos(angle)), 1, random);
    }
    case 'changing':
      return drawCount(perWeek * (week < changesAt ? 1 : changesBy), 1, random);
    case 'feasts': {
      const isFeast = random() < feastsPerYear / 52;
      const usual = perWeek / (1 + (feastsPerYear * feastWeeksOfUse) / 52);
      return drawCount(usual, 1, random) + (isFeast ? Math.round(feastWeeksOfUse * usual) : 0);
    }
    case 'alternating': {
      const twoWeeks = 2 * perWeek;
      const whole = Math.floor(twoWeeks) + (random() < twoWeeks - Math.floor(twoWeeks) ? 1 : 0);
      return Math.abs(week) % 2 === 0 ? whole : 0;
    }
  }
}
