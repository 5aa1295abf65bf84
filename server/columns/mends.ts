import { letters } from '../../shared/bounds.ts';
import { isOneLine } from '../../shared/schemas/one-line.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { CarriedRow } from './carried-table.ts';
import { type Cell, instant } from './column-kinds.ts';
import { type CarriedName, carried } from './household-columns.ts';
import { householdRow } from './kitchen.ts';

// What can be done about a stored value that no form takes, from the column alone.

/** Only ever added to: what is unfit there is mended in the saved file, which comes back whole or not at all. */
export const onlyAddedTo: ReadonlySet<string> = new Set([
  'jar_event',
  'empty_jar_event',
  'material_event',
  'load_clock_event',
  'lot_standing_event',
  'stage_event',
  'store_event',
]);

/** Rows others hang on are never taken away for one value. */
const hungOn: ReadonlySet<string> = new Set(
  Object.values(carried).flatMap(({ pointsTo }) => Object.values(pointsTo)),
);

export type Mend =
  | { readonly kind: 'clear' }
  /** The value the schema has where nothing is said. */
  | { readonly kind: 'usual' }
  | { readonly kind: 'now' }
  | { readonly kind: 'put'; readonly value: Cell; readonly retires: boolean }
  /** The recipe is no longer canned: what is left of a process says nothing. */
  | { readonly kind: 'not canned' }
  | { readonly kind: 'take away' };

/** How an unfit value may be mended where it stands; null where only the saved file helps. */
export function mendOf(
  name: CarriedName | 'household',
  column: string,
  row: CarriedRow,
  today: CalendarDate,
): Mend | null {
  const { columns, key, pointsTo } = name === 'household' ? householdRow : carried[name];
  const found = row[column];
  const kind = columns[column];
  if (kind === undefined || onlyAddedTo.has(name)) return null;
  if (hungOn.has(name) && Object.hasOwn(pointsTo, column)) return null;
  const withOthers = mendWithOthers(`${name}.${column}`, row);
  if (withOthers !== null) return withOthers;
  if (key.includes(column)) return { kind: 'take away' };
  if (kind.mayBeEmpty) return { kind: 'clear' };
  if (kind === instant) return { kind: 'now' };
  if (column === 'name' && typeof found === 'string')
    return { kind: 'put', value: onOneLine(found, kind.longest ?? 1), retires: false };
  if (kind.mayBeMissing) return { kind: 'usual' };
  if (name !== 'household' && !hungOn.has(name)) return { kind: 'take away' };
  const value = standIns(kind.bound, found, today).find((one) => kind.schema.safeParse(one).success);
  if (value === undefined) return null;
  // What a wrong yield or method could lead to is not done with it until somebody has looked.
  return { kind: 'put', value, retires: name === 'recipe' || name === 'canner' || name === 'source' };
}

/** Columns whose value has to agree with others of their row. */
function mendWithOthers(place: string, row: CarriedRow): Mend | null {
  const put = (value: Cell | undefined): Mend => ({ kind: 'put', value: value ?? null, retires: false });
  switch (place) {
    case 'recipe.process_food':
    case 'recipe.process_style':
    case 'recipe.process_pack':
    case 'recipe.jar_kind':
      return row.canner_id === null ? null : { kind: 'not canned' };
    case 'recipe.yield_high':
      return { kind: 'put', value: row.yield_low ?? null, retires: true };
    case 'recipe.yield_low':
      return { kind: 'put', value: row.yield_high ?? null, retires: true };
    case 'item.usual_jar':
      return put(row.unit === 'jar' ? 'pint/regular' : null);
    case 'lot.made_on':
      return put(row.ready_from);
    case 'lot.ready_from':
      return put(row.made_on);
    case 'upkeep_task.device':
      return put(onOneLine(String(row.device ?? ''), letters.shortName));
    // What was done to something that is not named was done to nothing.
    case 'upkeep_event.canner_id':
    case 'upkeep_event.task_id':
    case 'kept.batches':
      return { kind: 'take away' };
    default:
      return null;
  }
}

function* endsOf(bound: { readonly from: number; readonly to: number } | undefined, found: unknown) {
  if (bound === undefined) return;
  const value = Number(found);
  yield Number.isFinite(value) ? Math.min(bound.to, Math.max(bound.from, Math.round(value))) : bound.from;
  yield bound.from;
}

/** Values of every kind of column, the plainest first. */
const standIns = (
  bound: { readonly from: number; readonly to: number } | undefined,
  found: unknown,
  today: CalendarDate,
): readonly Cell[] => [
  ...endsOf(bound, found),
  ...(typeof found === 'string' ? [onOneLine(found, 40)] : []),
  'UTC',
  ...firstChoices,
  'pint/regular',
  today,
  'unknown',
];

/** First of the choices of every closed list that a table others hang on has. */
const firstChoices = [
  'cellar',
  'boiling-water',
  'preserve',
  'canned',
  'stone-fruit',
  'jar',
  'garden',
  'put-up',
  'bought',
] as const;

function onOneLine(text: string, longest: number): string {
  const short = text.slice(0, longest);
  const plain = isOneLine(short) ? short : short.replaceAll(/[\p{C}\u2028\u2029]/gu, ' ').trim();
  return plain === '' ? '?' : plain;
}
