import { monitorEventLoopDelay } from 'node:perf_hooks';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { congruential32 } from 'pure-rand/generator/congruential32';
import { householdText } from '../../server/files/household-file.ts';
import { unfitValues } from '../../server/queries/unfit-values.ts';
import { settledQuinceYard } from '../builders/planned-quince-yard.ts';
import { quinceYard } from '../builders/quince-yard.ts';
import { Visitor } from '../builders/visitor.ts';

// Household files and lists gone wrong: single values of another type or size, rows left out, doubled and mixed up, and whole
// texts cut, nested, blown up. Each is sent as its form sends it, while somebody else looks at the shelf.

export interface FilesProtocol {
  readonly files: number;
  readonly seed: number;
  readonly onProgress?: (sent: number) => void;
}

export interface FilesReport {
  readonly households: number;
  readonly lists: number;
  /** How many were answered by which status. */
  readonly statuses: Readonly<Record<string, number>>;
  /** Answers of 500, or with words of the inside. */
  readonly broken: readonly string[];
  /** Refused, and yet something was changed. */
  readonly changed: readonly string[];
  /** Taken, and yet a page answers 500 or a value is stored that no form takes. */
  readonly wronglyTaken: readonly string[];
  /** Longest wait of somebody else for the shelf, and of the process for itself, ms. */
  readonly slowestOther: number;
  readonly longestStall: number;
  readonly mostMemoryInMb: number;
}

const oddValues: readonly unknown[] = [
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

interface Dice {
  below(count: number): number;
  oneOf<Value>(values: readonly Value[]): Value;
}

const diceOf = (seed: number): Dice => {
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

type SavedRow = Record<string, unknown>;
interface Saved {
  household: SavedRow;
  tables: Record<string, SavedRow[]>;
}

/** A saved household with one to three faults. */
function spoiltHousehold(text: string, dice: Dice): string {
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
function spoiltList(dice: Dice): string {
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

const pagesLookedAt = ['/', '/shelf', '/items', '/targets', '/kitchen', '/year', '/harvest', '/files'];
const ofTheInside = /SQLITE_|CHECK constraint|ZodError|better-sqlite3|at Object\.|node_modules/;

/** Everything but the notices: looking at a page brings those up to date. */
function factsOf(text: string): string {
  const { tables, ...rest } = JSON.parse(text) as Saved;
  const { notice: _, ...others } = tables;
  return JSON.stringify({ ...rest, tables: others });
}

/** Sends the files one after another. */
export async function sendSpoiltFiles({ files, seed, onProgress }: FilesProtocol): Promise<FilesReport> {
  const pages = await settledQuinceYard();
  const dice = diceOf(seed);
  const other = new Visitor(pages.app);
  const saved = await householdText(pages.db, quinceYard);
  const csrf = /name="_csrf" value="([^"]+)"/.exec((await pages.visitor.open('/files')).body)?.[1] ?? '';
  const statuses: Record<string, number> = {};
  const broken: string[] = [];
  const changed: string[] = [];
  const wronglyTaken: string[] = [];
  const counts = { households: 0, lists: 0 };
  let slowestOther = 0;
  let mostMemory = 0;
  let keys = 0;
  const upload = (url: string, fields: Readonly<Record<string, string>>, content: string) => {
    keys += 1;
    return pages.visitor.upload(url, { _csrf: csrf, key: `spoilt-file-${keys}`, ...fields }, content);
  };
  const stalls = monitorEventLoopDelay({ resolution: 10 });
  const answeredWith = (what: string, status: number, body: string): void => {
    statuses[status] = (statuses[status] ?? 0) + 1;
    if ((status >= 500 && status !== 503) || ofTheInside.test(body)) broken.push(`${what}: ${status}`);
  };

  for (let at = 0; at < files; at += 1) {
    const isList = dice.below(3) === 0;
    const what = `${isList ? 'list' : 'household'} ${at} of seed ${seed}`;
    const content = isList ? spoiltList(dice) : spoiltHousehold(saved, dice);
    stalls.enable();
    const sending = isList
      ? upload('/files/lists', { kind: dice.oneOf(['stock', 'past use']) }, content)
      : upload('/files/household', { sure: 'yes' }, content);
    await new Promise((resolve) => setImmediate(resolve));
    const began = performance.now();
    const shelf = await other.open('/shelf');
    slowestOther = Math.max(slowestOther, performance.now() - began);
    if (shelf.status !== 200) broken.push(`${what}: the shelf of somebody else answered ${shelf.status}`);
    const answer = await sending;
    answeredWith(what, answer.status, answer.body);
    if (isList) counts.lists += 1;
    else counts.households += 1;
    if (isList && answer.status === 303) {
      const shown = await pages.visitor.open(answer.location);
      answeredWith(`${what}, looked at`, shown.status, shown.body);
      const brought = await pages.visitor.post(shown, `${answer.location}/import`, {
        key: `bring-in-${at}`,
        item: '0',
        units: '1',
        made: '2',
        day: '2',
        dates: 'year first',
      });
      answeredWith(`${what}, brought in`, brought.status, brought.body);
      if (brought.status === 303 && (await unfitValues(pages.db, quinceYard)).length > 0)
        wronglyTaken.push(what);
    }
    stalls.disable();
    mostMemory = Math.max(mostMemory, process.memoryUsage.rss());
    const now = await householdText(pages.db, quinceYard);
    if (factsOf(now) !== factsOf(saved)) {
      if (answer.status !== 303) changed.push(what);
      for (const page of pagesLookedAt)
        if ((await pages.visitor.open(page)).status >= 500) wronglyTaken.push(`${what}: ${page}`);
      if ((await unfitValues(pages.db, quinceYard)).length > 0) wronglyTaken.push(what);
      const back = await upload('/files/household', { sure: 'yes' }, saved);
      if (back.status !== 303 || factsOf(await householdText(pages.db, quinceYard)) !== factsOf(saved))
        changed.push(`${what}: not brought back (${back.status})`);
    }
    if ((at + 1) % 100 === 0) onProgress?.(at + 1);
  }
  await pages.close();
  return {
    ...counts,
    statuses,
    broken,
    changed,
    wronglyTaken,
    slowestOther: Math.round(slowestOther),
    longestStall: Math.round(stalls.max / 1e6),
    mostMemoryInMb: Math.round(mostMemory / 1_048_576),
  };
}
