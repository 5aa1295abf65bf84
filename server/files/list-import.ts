import type { ItemId, PlaceId } from '../../shared/ids.ts';
import type { JarKind } from '../../shared/jar.ts';
import { found, type Outcome } from '../../shared/problems.ts';
import { isOneLine } from '../../shared/schemas/one-line.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Item } from '../../src/household/item.ts';
import type { Place } from '../../src/household/kitchen.ts';
import {
  bestIn,
  type DateOrder,
  dayIn,
  filledIn,
  jarIn,
  longestName,
  nameTooLong,
  noName,
  notOneLine,
  placeIn,
  unitsIn,
  weightIn,
} from './list-cells.ts';
import { type ParsedList, parseList } from './list-table.ts';

export type ListKind = 'stock' | 'past use';

export interface ListField {
  readonly name: string;
  readonly words: string;
  readonly isNeeded: boolean;
  /** Headings it is recognised by. */
  readonly alike: readonly string[];
}

export const listFields: Readonly<Record<ListKind, readonly ListField[]>> = {
  stock: [
    { name: 'item', words: 'Item', isNeeded: true, alike: ['item', 'name', 'what', 'product'] },
    {
      name: 'units',
      words: 'How many',
      isNeeded: true,
      alike: ['left', 'units', 'count', 'quantity', 'how many', 'jars', 'number'],
    },
    {
      name: 'made',
      words: 'Day put up or bought',
      isNeeded: true,
      alike: ['made', 'date', 'put up', 'bought', 'canned', 'day'],
    },
    {
      name: 'filled',
      words: 'How many were put up, when some are gone',
      isNeeded: false,
      alike: [
        'jars put up',
        'number put up',
        'how many put up',
        'originally',
        'at first',
        'started with',
        'put up',
      ],
    },
    { name: 'jar', words: 'Jar', isNeeded: false, alike: ['jar', 'size', 'jar kind'] },
    {
      name: 'best',
      words: 'Best quality until',
      isNeeded: false,
      alike: ['best until', 'best by', 'best before', 'expires'],
    },
    { name: 'place', words: 'Place', isNeeded: false, alike: ['place', 'where', 'shelf', 'location'] },
  ],
  'past use': [
    { name: 'item', words: 'Item', isNeeded: true, alike: ['item', 'name', 'what', 'product'] },
    {
      name: 'units',
      words: 'How many were eaten',
      isNeeded: true,
      alike: ['units', 'eaten', 'used', 'count', 'quantity', 'how many', 'jars'],
    },
    { name: 'day', words: 'Day', isNeeded: true, alike: ['day', 'date', 'used on', 'taken', 'week'] },
  ],
};

/** Beyond so many faults only the first of each line is kept. */
const mostProblems = 2000;

/** Column of each field, by the field's name; absent where none was chosen. */
export type Mapping = Readonly<Record<string, number | undefined>>;

/** The columns that look like the fields by their headings, the likelier words first; a column is taken once. */
export function guessMapping(kind: ListKind, header: readonly string[]): Mapping {
  const headings = header.map((heading) => heading.toLowerCase().trim());
  const taken = new Set<number>();
  const mapping: Record<string, number> = {};
  for (const pass of ['same', 'within'] as const) {
    for (const { name, alike } of listFields[kind]) {
      if (mapping[name] !== undefined) continue;
      const fitting = alike.flatMap((word) => {
        const at = headings.findIndex(
          (heading, place) =>
            !taken.has(place) && (pass === 'same' ? heading === word : heading.includes(word)),
        );
        return at < 0 ? [] : [at];
      });
      const [at] = fitting;
      if (at === undefined) continue;
      mapping[name] = at;
      taken.add(at);
    }
  }
  return mapping;
}

export interface ListRow {
  readonly line: number;
  readonly item: Item;
  readonly units: number;
  /** How many there were at first, where the list says it; null otherwise. */
  readonly filled: number | null;
  readonly on: CalendarDate;
  readonly jarKind: JarKind | null;
  readonly best: CalendarDate | null;
  readonly placeId: PlaceId | null;
}

export interface ListProblem {
  readonly line: number;
  readonly column: string;
  readonly message: string;
}

/** A name of the list that the household does not keep, with the lines it stands on. */
export interface UnknownName {
  readonly name: string;
  readonly lines: readonly number[];
  /** The jar most of its rows name; null where none does. */
  readonly jar: JarKind | null;
}

export interface CheckedList {
  readonly rows: readonly ListRow[];
  /** Names that are to be added or said to be another's first; their rows are no fault and wait. */
  readonly unknown: readonly UnknownName[];
  /** Faults of the rows in the order of the lines: every one of the first `mostProblems`, then the first of each line. */
  readonly problems: readonly ListProblem[];
  /** Lines with a fault. */
  readonly unfitLines: number;
}

/** A list that was read, and held against what the household keeps where that was asked. */
export interface ReadList {
  readonly header: readonly string[];
  readonly rowCount: number;
  readonly mapping: Mapping;
  readonly checked: CheckedList | null;
}

/** What a list is held against; without a mapping the columns are named by their headings. */
export type ListQuestion = Omit<ListSetting, 'mapping'> & { readonly mapping: Mapping | null };

/** Reads a list as it was sent, and checks its rows when asked. */
export function readList(content: string | Uint8Array, question: ListQuestion | null): Outcome<ReadList> {
  const parsed = parseList(typeof content === 'string' ? content : new TextDecoder().decode(content));
  if (!parsed.ok) return parsed;
  const { header, rows } = parsed.value;
  const mapping = question === null ? {} : (question.mapping ?? guessMapping(question.kind, header));
  return found({
    header,
    rowCount: rows.length,
    mapping,
    checked: question === null ? null : checkList(parsed.value, { ...question, mapping }),
  });
}

export interface ListSetting {
  readonly kind: ListKind;
  readonly mapping: Mapping;
  readonly dates: DateOrder;
  readonly items: readonly Item[];
  /** Items by what else the list calls them, in small letters. */
  readonly calledAlso?: ReadonlyMap<string, Item>;
  readonly places: readonly Place[];
  readonly today: CalendarDate;
  /** What its household weighs in; what a row says itself, in its cell or in a column called `unit`, goes before it. */
  readonly weighs?: 'lb' | 'kg';
}

/** Holds every row against what the household keeps. */
export function checkList(list: ParsedList, setting: ListSetting): CheckedList {
  const { kind, mapping } = setting;
  const missing = listFields[kind].filter(({ name, isNeeded }) => isNeeded && mapping[name] === undefined);
  if (missing.length > 0)
    return {
      rows: [],
      unknown: [],
      unfitLines: 1,
      problems: missing.map(({ words }) => ({
        line: 1,
        column: words,
        message: `No column was chosen for “${words}”. Choose one above.`,
      })),
    };
  const itemByName = new Map<string, Item>();
  for (const item of setting.items) {
    itemByName.set(item.id, item);
    itemByName.set(item.name.toLowerCase(), item);
  }
  for (const [name, item] of setting.calledAlso ?? []) itemByName.set(name, item);
  const placeByName = new Map(setting.places.map((place) => [place.name.toLowerCase(), place]));
  const unitColumn = list.header.findIndex((title) => /^units?$/i.test(title.trim()));
  const rows: ListRow[] = [];
  const problems: ListProblem[] = [];
  const unknown = new Map<string, { name: string; lines: number[]; jars: (JarKind | null)[] }>();
  let unfitLines = 0;
  for (const { line, cells } of list.rows) {
    let fits = true;
    const cell = (name: string): string => cells[mapping[name] ?? -1] ?? '';
    const wrong = (name: string, message: string): null => {
      const isFirst = fits;
      fits = false;
      if (isFirst || problems.length < mostProblems)
        problems.push({ line, column: list.header[mapping[name] ?? -1] ?? name, message });
      return null;
    };
    const name = cell('item');
    const item = itemByName.get(name.toLowerCase()) ?? null;
    if (item === null && name.length > longestName) wrong('item', nameTooLong(name));
    else if (item === null && name === '') wrong('item', noName);
    else if (item === null && !isOneLine(name)) wrong('item', notOneLine(name));
    const weight = weightIn(cells[unitColumn] ?? '') ?? setting.weighs ?? 'lb';
    const units = unitsIn(cell('units'), item, weight, (message) => wrong('units', message));
    const filled = filledIn(cell('filled'), item, { left: units, weight }, (message) =>
      wrong('filled', message),
    );
    const dayField = kind === 'stock' ? 'made' : 'day';
    const on = dayIn(cell(dayField), setting, (message) => wrong(dayField, message));
    const jar = jarIn(cell('jar'), item, (message) => wrong('jar', message));
    const best = bestIn(cell('best'), item, on, setting, (message) => wrong('best', message));
    const place = placeIn(cell('place'), placeByName, (message) => wrong('place', message));
    if (item === null && name !== '' && name.length <= longestName && isOneLine(name)) {
      const waiting = unknown.get(name.toLowerCase()) ?? { name, lines: [], jars: [] };
      waiting.lines.push(line);
      waiting.jars.push(jar);
      unknown.set(name.toLowerCase(), waiting);
    }
    if (!fits) unfitLines += 1;
    if (!fits || item === null || units === null || on === null) continue;
    rows.push({ line, item, units, filled, on, jarKind: jar, best, placeId: place });
  }
  return {
    rows,
    problems,
    unfitLines,
    unknown: [...unknown.values()].map(({ name, lines, jars }) => ({ name, lines, jar: mostOf(jars) })),
  };
}

/** What stands there most often, nulls apart; of several the first. */
function mostOf(jars: readonly (JarKind | null)[]): JarKind | null {
  const counts = new Map<JarKind, number>();
  for (const jar of jars) if (jar !== null) counts.set(jar, (counts.get(jar) ?? 0) + 1);
  return [...counts].sort(([, one], [, other]) => other - one)[0]?.[0] ?? null;
}

/** Units by item, for the preview. */
export function unitsByItem(
  rows: readonly ListRow[],
): ReadonlyMap<ItemId, { item: Item; rows: number; units: number }> {
  const sums = new Map<ItemId, { item: Item; rows: number; units: number }>();
  for (const { item, units } of rows) {
    const before = sums.get(item.id) ?? { item, rows: 0, units: 0 };
    sums.set(item.id, { item, rows: before.rows + 1, units: before.units + units });
  }
  return sums;
}

/** The same fault of the same column, with every line it stands on. */
export interface ListFault {
  readonly column: string;
  readonly message: string;
  readonly lines: readonly number[];
}

/** Faults that read alike are said once, with all their lines; in the order of the first. */
export function faultsOf(problems: readonly ListProblem[]): readonly ListFault[] {
  const faults = new Map<string, { column: string; message: string; lines: number[] }>();
  for (const { line, column, message } of problems) {
    const fault = faults.get(`${column}\n${message}`) ?? { column, message, lines: [] };
    fault.lines.push(line);
    faults.set(`${column}\n${message}`, fault);
  }
  return [...faults.values()];
}

/** `2, 5–9 and 12`: lines in rising order, neighbours drawn together. */
export function linesInWords(lines: readonly number[]): string {
  const spans: [number, number][] = [];
  for (const line of [...new Set(lines)].sort((one, other) => one - other)) {
    const last = spans.at(-1);
    if (last !== undefined && last[1] + 1 === line) last[1] = line;
    else spans.push([line, line]);
  }
  const words = spans.map(([from, to]) =>
    from === to ? String(from) : to === from + 1 ? `${from}, ${to}` : `${from}–${to}`,
  );
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
