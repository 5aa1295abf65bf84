import { feetPerMetre } from './measures.ts';
import { type DecimalSign, readTypedNumber, type TypedNumber } from './typed-number.ts';

export type AltitudeUnit = 'ft' | 'm';

/** An altitude as typed: one height, two heights it may be, or none. */
export type TypedAltitude =
  | {
      readonly kind: 'altitude';
      readonly altitudeFt: number;
      /** The number and the unit it was meant in. */
      readonly amount: number;
      readonly unit: AltitudeUnit;
      /** False where a unit was typed that is not the chosen one, or the number is written as other countries do: to be confirmed. */
      readonly isPlain: boolean;
    }
  | { readonly kind: 'unclear'; readonly amounts: readonly [number, number]; readonly unit: AltitudeUnit }
  | { readonly kind: 'none' };

const unitWords: readonly (readonly [RegExp, AltitudeUnit, number])[] = [
  [/(?:kilomet(?:er|re)s?|km)$/i, 'm', 1000],
  [/(?:met(?:er|re)s?|metros?|mètres?|mtrs?|m)$/i, 'm', 1],
  [/(?:feet|foot|ft|fuß|pieds?|pies?)$/i, 'ft', 1],
  [/['’′]$/, 'ft', 1],
];

/** Millionths: what a conversion leaves behind is no height. */
const steady = (value: number): number => Math.round(value * 1e6) / 1e6;

/** Feet of a height in feet or metres; 1 ft is 0.3048 m exactly. */
export const feetOf = (amount: number, unit: AltitudeUnit): number =>
  unit === 'm' ? steady(amount * feetPerMetre) : amount;

/**
 * Reads a height above the sea: a number, with or without its unit ("1240 m", "4,068 ft", "1.24 km"). A unit that was typed
 * counts before the one chosen beside the field. Decimals of a kilometre are decimals: "1.240 km" is clear.
 */
export function readTypedAltitude(
  typed: string,
  chosen: AltitudeUnit,
  decimalSign: DecimalSign = '.',
): TypedAltitude {
  if (/[\p{No}\p{Nl}]/u.test(typed)) return { kind: 'none' };
  const text = typed.normalize('NFKC').trim().replace(/\.$/, '');
  const said = unitWords.find(([word]) => word.test(text));
  const [word, unit, times] = said ?? [null, chosen, 1];
  const bare = word === null ? text : text.replace(word, '').trim();
  const read = times === 1000 ? inKilometres(bare, decimalSign) : readTypedNumber(bare, { decimalSign });
  if (read.kind === 'none') return read;
  if (read.kind === 'unclear')
    return { kind: 'unclear', amounts: [steady(read.larger * times), steady(read.smaller * times)], unit };
  const amount = steady(read.value * times);
  return {
    kind: 'altitude',
    altitudeFt: feetOf(amount, unit),
    amount,
    unit,
    isPlain:
      read.isPlain &&
      times === 1 &&
      unit === chosen &&
      (Number.isInteger(read.value) || Math.abs(read.value) >= 10),
  };
}

/** No kitchen lies a thousand kilometres up: of two readings of kilometres only the smaller is a height. */
function inKilometres(text: string, decimalSign: DecimalSign): TypedNumber {
  const decimals = /^(\d{1,2})[.,](\d{3})$/.exec(text);
  if (decimals) return { kind: 'number', value: Number(`${decimals[1]}.${decimals[2]}`), isPlain: false };
  const read = readTypedNumber(text, { decimalSign });
  if (read.kind === 'number' && Math.abs(read.value) >= 100) return { kind: 'none' };
  return read;
}
