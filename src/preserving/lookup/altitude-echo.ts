import { bounds } from '../../../shared/bounds.ts';
import { numberFormatter } from '../../../shared/formatters.ts';
import { feetPerMetre } from '../../../shared/measures.ts';
import { found, type Outcome, refused } from '../../../shared/problems.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import type { ProcessTimeRow } from '../../../shared/schemas/reference/process-time.ts';
import { type AltitudeUnit, feetOf, readTypedAltitude } from '../../../shared/typed-altitude.ts';
import type { DecimalSign } from '../../../shared/typed-number.ts';
import { isInBand } from './printed-rows.ts';

/** A band of the table of processing times, in feet, both edges included; `null` has no upper edge. */
export interface AltitudeBand {
  readonly fromFt: number;
  readonly toFt: number | null;
}

/** The narrowest printed band of boiling-water rows an altitude falls into; `null` below the sea. */
export function altitudeBand(rows: readonly ProcessTimeRow[], altitudeFt: number): AltitudeBand | null {
  const narrowest = narrowestFirst({ rows }).find((row) => isInBand(row, altitudeFt));
  return narrowest ? { fromFt: narrowest.altitudeFromFt, toFt: narrowest.altitudeToFt } : null;
}

const narrowestFirst = whileTheSame('rows', ({ rows }: { readonly rows: readonly ProcessTimeRow[] }) => {
  const width = (row: ProcessTimeRow): number =>
    (row.altitudeToFt ?? Number.POSITIVE_INFINITY) - row.altitudeFromFt;
  return rows
    .filter((row) => row.method === 'boiling-water')
    .toSorted((one, other) => width(one) - width(other) || other.altitudeFromFt - one.altitudeFromFt);
});

const inWords = (value: number): string =>
  numberFormatter('en-US', { maximumFractionDigits: Math.abs(value) < 10 ? 2 : 0 }).format(value);

const bandInWords = ({ fromFt, toFt }: AltitudeBand): string =>
  toFt === null
    ? `the band above ${inWords(fromFt - 1)} ft`
    : `the band ${inWords(fromFt)} to ${inWords(toFt)} ft`;

/** "1,240 m is 4,068 ft: the band 3,001 to 6,000 ft": a height in both units and where it stands in the tables. */
export function altitudeEcho(rows: readonly ProcessTimeRow[], amount: number, unit: AltitudeUnit): string {
  const altitudeFt = feetOf(amount, unit);
  const other = unit === 'm' ? `${inWords(altitudeFt)} ft` : `${inWords(amount / feetPerMetre)} m`;
  const band = altitudeBand(rows, altitudeFt);
  return `${inWords(amount)} ${unit} is ${other}: ${band ? bandInWords(band) : 'below the sea, where no band is printed'}`;
}

/** Lowest and highest height a kitchen can be said to have, in feet. */
const altitudeLimits = { fromFt: bounds.altitudeFt.from, toFt: bounds.altitudeFt.to } as const;
/** Lowest and highest height that is looked up; the tables say what is printed of it. */
export const lookUpLimits = { fromFt: -1500, toFt: 200_000 } as const;

/** A height that may be kept. */
export interface KnownAltitude {
  readonly altitudeFt: number;
  readonly echo: string;
}

/**
 * Reads a typed height for keeping or looking up: found where it is plain; otherwise one problem that says what it can be, in
 * both units with its band, and what to write. Nothing that could be another band is ever taken.
 */
export function knownAltitude(
  rows: readonly ProcessTimeRow[],
  typed: string,
  chosen: AltitudeUnit,
  {
    decimalSign = '.',
    limits = altitudeLimits,
  }: {
    readonly decimalSign?: DecimalSign;
    readonly limits?: { readonly fromFt: number; readonly toFt: number };
  } = {},
): Outcome<KnownAltitude> {
  const ask = (message: string): Outcome<KnownAltitude> =>
    refused({ code: 'form.field', path: ['altitude'], message });
  const shown = `“${typed.slice(0, 40)}”`;
  const read = readTypedAltitude(typed, chosen, decimalSign);
  if (read.kind === 'none')
    return ask(
      typed.trim() === ''
        ? 'Write how high the kitchen lies, in feet or meters.'
        : `${shown} is no height. Write how high the kitchen lies, in feet or meters, in digits like 1240.`,
    );
  const echo = (amount: number): string => altitudeEcho(rows, amount, read.unit);
  const asDigits = (amount: number): string =>
    String(Math.abs(amount) < 10 ? Math.ceil(amount) : Math.round(amount * 100) / 100);
  if (read.kind === 'unclear') {
    const [larger, smaller] = read.amounts;
    return ask(
      `${shown} may be two heights. ${echo(larger)}; ${echo(smaller)}. Write ${asDigits(larger)} for the first, ${asDigits(smaller)} for the second.`,
    );
  }
  const { altitudeFt, amount, unit } = read;
  if (altitudeFt < limits.fromFt || altitudeFt > limits.toFt)
    return ask(
      `${shown} is no height a kitchen has: ${echo(amount)}. Write one from ${inWords(limits.fromFt)} to ${inWords(limits.toFt)} ft.`,
    );
  if (!read.isPlain)
    return ask(
      `You wrote ${shown}. ${echo(amount)}. If that is meant, write ${asDigits(amount)} and choose ${unit === 'm' ? 'meters' : 'feet'}.`,
    );
  return found({ altitudeFt, echo: echo(amount) });
}

/** A typed height as a form shows it back: the mark that goes along with it says which height was seen. */
export interface SeenAltitude {
  /** "1,240 m is 4,068 ft: the band 3,001 to 6,000 ft"; null where the text is no plain height. */
  readonly echo: string | null;
  /** The feet of the echo; empty where there is none. */
  readonly mark: string;
}

export const seenAltitude = (
  rows: readonly ProcessTimeRow[],
  typed: string,
  chosen: AltitudeUnit,
  decimalSign: DecimalSign,
): SeenAltitude => {
  const known = knownAltitude(rows, typed, chosen, { decimalSign });
  return known.ok
    ? { echo: known.value.echo, mark: String(known.value.altitudeFt) }
    : { echo: null, mark: '' };
};

/**
 * A height to be kept: plain, and seen in both units with its band before. The first sending of a form is answered by the
 * echo; the same height sent again with the mark of that echo is kept.
 */
export function confirmedAltitude(
  rows: readonly ProcessTimeRow[],
  typed: string,
  chosen: AltitudeUnit,
  { decimalSign, mark }: { readonly decimalSign: DecimalSign; readonly mark: string },
): Outcome<KnownAltitude> {
  const known = knownAltitude(rows, typed, chosen, { decimalSign });
  if (!known.ok || mark === String(known.value.altitudeFt)) return known;
  return refused({
    code: 'altitude-unconfirmed',
    path: ['altitude'],
    message: `${known.value.echo}. Is that your kitchen? Send the form again to keep it, or correct it.`,
  });
}
