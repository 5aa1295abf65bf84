import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { congruential32 } from 'pure-rand/generator/congruential32';

// Household files and lists gone wrong: single values of another type or size, rows left out, doubled and mixed up, and whole
// texts cut, nested, blown up.

export const oddValues: readonly unknown[] = [
  null,
  true,
  false,
  '',
  ' ',
  0,
  -1,
  1,
  0.5,
  -0.5,
  1e6,
  1e15,
  1e308,
  -1e308,
  5e-324,
  2 ** 53,
  '0',
  '1e308',
  'NaN',
  [],
  {},
  [1],
  { a: 1 },
  '9999-12-31',
  '0001-01-01',
  '2026-02-30',
  '2026-W59',
  '9999-W01',
  'bucket/none',
  'pint/none',
  'pint/wide',
  'Mars/Olympus',
  'UTC',
  'not a locale',
  'x'.repeat(121),
  'x'.repeat(100_000),
  'a\r\nb',
  'a\tb',
  'a\u0000b',
  'a\u202eb',
  'a\u2028b',
  '=1+1',
  '<script>',
  '../../x',
  '__proto__',
  '{"a":',
  '[]',
  '{}',
  '["salt"]',
  'böse',
  '🍅',
  'peaches',
  'pressure',
  'reversed',
  'finished',
  '2026-08-17',
  '2200-12-31',
  '2000-01-01',
];

export interface Dice {
  below(count: number): number;
  oneOf<Value>(values: readonly Value[]): Value;
}

export const diceOf = (seed: number): Dice => {
  const generator = congruential32(seed);
  const below = (count: number): number => (count <= 1 ? 0 : uniformInt(generator, 0, count - 1));
  return {
    below,
    oneOf: (values) => {
      const value = values[below(values.length)];
      if (value === undefined && values.length === 0) throw new Error('expected something to choose from');
      return value as (typeof values)[number];
    },
  };
};

export type SavedRow = Record<string, unknown>;
export interface Saved {
  household: SavedRow;
  tables: Record<string, SavedRow[]>;
}

/** A saved household with one to three faults. */
export function spoiltHousehold(text: string, dice: Dice): string {
  if (dice.below(12) === 0) return spoiltText(text, dice);
  const saved = JSON.parse(text) as Saved;
  const filled = Object.values(saved.tables).filter((rows) => rows.length > 0);
  for (let fault = 0; fault <= dice.below(3); fault += 1) {
    const rows = dice.oneOf(filled);
    const row = dice.below(8) === 0 ? saved.household : dice.oneOf(rows);
    const column = dice.oneOf(Object.keys(row));
    switch (dice.below(9)) {
      case 0:
        delete row[column];
        break;
      case 1:
        row[dice.oneOf(['__proto__', 'constructor', 'household_id', 'rowid', 'x'.repeat(2000)])] =
          dice.oneOf(oddValues);
        break;
      case 2:
        rows.push({ ...dice.oneOf(rows) });
        break;
      case 3:
        rows.splice(dice.below(rows.length), 1);
        break;
      case 4:
        row[column] = dice.oneOf(rows)[column];
        break;
      case 5: {
        const value = row[column];
        row[column] =
          typeof value === 'number' ? value * dice.oneOf([-1, 1.5, 10, 1000, 1e9]) : `${String(value)}x`;
        break;
      }
      default:
        row[column] = dice.oneOf(oddValues);
    }
    if (rows.length === 0) break;
  }
  return JSON.stringify(saved);
}

/** Texts that are hardly a file any more. */
function spoiltText(text: string, dice: Dice): string {
  switch (dice.below(9)) {
    case 0:
      return text.slice(0, dice.below(text.length));
    case 1:
      return `${'['.repeat(1 + dice.below(3_000_000))}`;
    case 2:
      return `{"format":"shelfward household","version":1,"household":{},"tables":{"item":[${'{},'.repeat(dice.below(1_500_000))}{}]}}`;
    case 3:
      return text.replace('"household": {', `"household": {"name":"${'x'.repeat(dice.below(7_000_000))}",`);
    case 4:
      return text.replace(/:(\d+)/, `:${'9'.repeat(1 + dice.below(500_000))}`);
    case 5:
      return text.replace(
        '"tables": {',
        `"tables": {"${dice.oneOf(['plan', 'membership', 'person', 'sqlite_master', '__proto__'])}":[{}],`,
      );
    case 6:
      return text.replaceAll('"', dice.oneOf(["'", '', '""']));
    case 7:
      return `{${Array.from({ length: dice.below(300_000) }, (_, at) => `"k${at}":${at}`).join(',')}}`;
    default:
      return String.fromCharCode(...Array.from({ length: 2000 }, () => dice.below(0xffff)));
  }
}

/** A list as it should be, gone wrong in its cells, or as a whole. */
export function spoiltList(dice: Dice): string {
  const sign = dice.oneOf([',', ';', '\t']);
  const rows = 1 + dice.below(dice.below(10) === 0 ? 9000 : 60);
  const cell = (): string => {
    const value = dice.oneOf(oddValues);
    return dice.below(20) === 0 ? `"${String(value)}` : JSON.stringify(String(value)).slice(0, 500);
  };
  const lines = Array.from({ length: rows }, (_, at) =>
    dice.below(6) === 0
      ? Array.from({ length: 1 + dice.below(8) }, cell).join(sign)
      : ['Plum jam', 1 + (at % 12), `2026-0${1 + (at % 7)}-1${at % 9}`, '', '', ''].join(sign),
  );
  const headings = ['item', 'units', 'made', 'jar', 'best until', 'place'].join(sign);
  switch (dice.below(12)) {
    case 0:
      return `${`a${sign}`.repeat(dice.below(2_000_000))}a\n1\n`;
    case 1:
      return `${headings}\n${'x\n'.repeat(dice.below(2_000_000))}`;
    case 2:
      return `${headings}\n"${'x'.repeat(dice.below(6_000_000))}`;
    case 3:
      return `${headings}\n${Array.from({ length: 1 + dice.below(150) }, cell).join(sign)}\n`;
    default:
      return `${headings}\n${lines.join('\n')}\n`;
  }
}
