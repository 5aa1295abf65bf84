import type { Problem } from '../../../../shared/problems.ts';
import { weightSaid } from '../../../../shared/trade-measure.ts';
import { readTypedNumber } from '../../../../shared/typed-number.ts';
import { fromReadersUnit, inReadersUnit, readersUnit } from '../../../../views/words/format.ts';
import type { Reading } from '../../../../views/words/reading.ts';
import { plain } from '../../../words/plain-number.ts';

/** Decimals of a figure in a field, the fewest that bring the same amount back; three may be read as thousands. */
const decimalsTried = [0, 1, 2, 4] as const;

/** What stands in a field of an amount that is counted in `unit`: in the weight or measure its household reads. */
export function unitsTyped(units: number, unit: string, reading: Pick<Reading, 'units'>): string {
  if (readersUnit(unit, reading) === unit) return plain(units);
  const shown = inReadersUnit(units, unit, reading);
  const figures = decimalsTried.map((decimals) => Number(shown.toFixed(decimals)));
  const kept = (figure: number): boolean =>
    Math.abs(fromReadersUnit(figure, unit, reading) - units) < leastApart;
  return String(figures.find(kept) ?? figures.at(-1)).replace(/\.\d{3}$/, '$&0');
}

export interface AsCounted {
  /** As typed, each of the fields in what is counted. */
  readonly values: Readonly<Record<string, string>>;
  /** A message about what was made of a field speaks of what was typed in it. */
  readonly asTyped: (problem: Problem) => Problem;
}

/**
 * What was typed of something that is weighed or measured, in what it is counted in: a metric household reads and types kilograms
 * and liters where pounds and quarts are kept. Who writes a unit behind the amount means that one. What is counted in jars, bags
 * or pieces stays as it was typed, and so does what is no number.
 */
export function asCounted(
  typed: Readonly<Record<string, string>>,
  unit: string,
  fields: readonly string[],
  reading: Pick<Reading, 'units'>,
): AsCounted {
  const values: Record<string, string> = { ...typed };
  for (const field of fields) {
    const made = inCounted(typed[field] ?? '', unit, reading);
    if (made !== null) values[field] = made;
  }
  return { values, asTyped: speakingOf(typed, values) };
}

/** The figure in `unit`, as a field would hold it; null where it is one already or none can be read. */
function inCounted(text: string, unit: string, reading: Pick<Reading, 'units'>): string | null {
  const own = readersUnit(unit, reading);
  const said = weightSaid(text, own);
  if (said.unit !== unit && said.unit !== metricUnit(unit)) return null;
  if (said.unit === unit) return said.amount === text ? null : said.amount;
  const read = readTypedNumber(said.amount, { fractions: true });
  if (read.kind === 'none') return null;
  // `1.814` has decimals: nobody keeps a thousand kilograms or liters of one thing at home.
  const value = read.kind === 'unclear' ? read.smaller : read.value;
  return keptFigure(fromReadersUnit(value, unit, { units: 'metric' }));
}

const metricUnit = (unit: string): string => readersUnit(unit, { units: 'metric' });

/** Two amounts nearer than this, in pounds or quarts, are one: half a gram, half a milliliter. */
const leastApart = 0.0012;

/** A figure that was ours comes back as it was. */
function keptFigure(units: number): string {
  const near = Math.round(units * 100) / 100;
  return Math.abs(near - units) < leastApart ? String(near) : units.toFixed(4);
}

const speakingOf =
  (typed: Readonly<Record<string, string>>, values: Readonly<Record<string, string>>) =>
  (problem: Problem): Problem => {
    const field = String(problem.path.at(-1) ?? '');
    const made = values[field];
    return made === undefined || made === typed[field]
      ? problem
      : { ...problem, message: problem.message.replace(`“${made}”`, `“${typed[field]}”`) };
  };
