import { type Bound, bounds, eitherWay, letters, moneyBounds } from '../../shared/bounds.ts';
import { canningMethods, gaugeTypes } from '../../shared/schemas/kitchen.ts';
import { countExplanations } from '../../shared/schemas/shelf/shelf-count.ts';
import { calendarDate } from '../../shared/week.ts';
import { before, expectThat, isSaid, type RowRule, table, together } from './carried-table.ts';
import {
  centsOf,
  day,
  dayAfter,
  flag,
  instant,
  jar,
  key,
  line,
  oneOf,
  orNone,
  sequence,
  slug,
  withDefault,
  within,
} from './column-kinds.ts';

// Of batches on the shelf, what became of them, and empty jars.

const ofLot = { lot_id: 'lot' } as const;
const ofItem = { item_id: 'item' } as const;
/** All lots of an item together. */
const unitsOnShelf: Bound = { from: 0, to: 1_000_000 };
/** Twelve sizes of jars of one lot each. */
const jarsOfResult: Bound = { from: 0, to: 12 * bounds.units.to };
const reverses: RowRule = expectThat(
  (row) => (row.kind === 'reversed') === isSaid(row.reverses_seq),
  '“reverses seq” exactly where the kind is “reversed”',
);
const signOf: Readonly<Record<string, (units: number) => boolean>> = {
  'put up': (units) => units > 0,
  bought: (units) => units > 0,
  received: (units) => units > 0,
  taken: (units) => units < 0,
  'given away': (units) => units < 0,
  discarded: (units) => units < 0,
  'seal failed': (units) => units < 0,
  moved: (units) => units === 0,
  finished: (units) => units === 0,
};

export const shelfColumns = {
  lot: table(
    'Batches on the shelf',
    20_000,
    ['id'],
    {
      id: slug,
      item_id: slug,
      batch_code: line(64),
      jar_kind: orNone(jar),
      origin: oneOf(['put-up', 'bought', 'received']),
      made_on: day,
      ready_from: dayAfter,
      best_quality_until: dayAfter,
      place_id: orNone(slug),
      cost_cents: orNone(centsOf(moneyBounds.paid)),
      set_aside_at: orNone(instant),
      set_aside_reason: orNone(line(1000)),
      recipe_id: orNone(slug),
      recorded_at: instant,
    },
    {
      pointsTo: { ...ofItem, place_id: 'place' },
      rules: [
        expectThat(
          (row) => !before(row.ready_from, row.made_on),
          'a day it is ready not before the day it was made',
        ),
        together('set_aside_at', 'set_aside_reason'),
      ],
    },
  ),
  processing_evidence: table(
    'How batches were processed',
    20_000,
    ['lot_id'],
    {
      lot_id: slug,
      canner_id: slug,
      method: oneOf(canningMethods),
      gauge: orNone(oneOf(gaugeTypes)),
      schedule_row: line(300),
      altitude_ft: within(bounds.altitudeFt),
      psi: orNone(within(bounds.psi)),
      minutes_run: within(bounds.minutesRun),
      acid_ticked: orNone(flag),
      done_by: line(letters.person),
    },
    { pointsTo: { ...ofLot, canner_id: 'canner' } },
  ),
  jar_event: table(
    'The ledger',
    60_000,
    ['seq'],
    {
      seq: sequence,
      entry_id: key,
      lot_id: slug,
      kind: oneOf([...Object.keys(signOf), 'counted', 'reversed']),
      units: within(eitherWay(bounds.unitsCounted)),
      trains_use: withDefault(flag),
      reason: orNone(line(1000, 0)),
      occurred_on: day,
      recorded_at: instant,
      recorded_by: orNone(line(letters.person)),
      taken_by: orNone(line(letters.person)),
      reverses_seq: orNone(sequence),
    },
    {
      pointsTo: ofLot,
      rules: [
        reverses,
        expectThat(
          (row) => signOf[String(row.kind)]?.(Number(row.units)) ?? true,
          'units above 0 for what came, below 0 for what left, 0 for what was only moved or finished',
        ),
        expectThat(
          (row) => row.kind !== 'finished' || calendarDate.safeParse(row.reason).success,
          'the day a finished jar was opened as its reason',
        ),
      ],
    },
  ),
  lot_move: table(
    'Batches carried elsewhere',
    20_000,
    ['entry_id'],
    {
      entry_id: key,
      lot_id: slug,
      from_place_id: orNone(slug),
      from_name: orNone(line(letters.shortName)),
      to_place_id: slug,
      to_name: line(letters.shortName),
    },
    { pointsTo: ofLot, rules: [together('from_place_id', 'from_name')] },
  ),
  jar_conflict: table(
    'Takes that did not fit',
    10_000,
    ['id'],
    {
      id: key,
      item_id: slug,
      lot_id: orNone(slug),
      kind: line(40),
      units: within(eitherWay(bounds.unitsCounted)),
      occurred_on: day,
      recorded_at: instant,
      settled_at: orNone(instant),
      settled_as: orNone(line(200)),
    },
    { pointsTo: ofItem, rules: [together('settled_at', 'settled_as')] },
  ),
  shelf_count: table(
    'Counts of the shelf',
    20_000,
    ['id'],
    {
      id: key,
      item_id: slug,
      counted_on: day,
      book_units: within(eitherWay(unitsOnShelf)),
      counted_units: within(bounds.unitsCounted),
      explained_as: oneOf(countExplanations),
      recorded_at: instant,
    },
    { pointsTo: ofItem },
  ),
  empty_jar_event: table('Empty jars', 60_000, ['seq'], {
    seq: sequence,
    entry_id: key,
    jar_kind: jar,
    kind: oneOf(['emptied', 'filled', 'bought', 'lent', 'returned', 'broken', 'counted']),
    jars: within(eitherWay(jarsOfResult)),
    occurred_on: day,
    recorded_at: instant,
  }),
  material_event: table('Produce and left-overs that came and went', 60_000, ['seq'], {
    seq: sequence,
    subject: key,
    kind: oneOf(['picked', 'bought', 'left-over', 'frozen', 'used', 'lost']),
    quantity: within(eitherWay(bounds.lbPerWeek)),
    unit: line(40),
    use_by: orNone(dayAfter),
    occurred_on: day,
    recorded_at: instant,
    result_id: orNone(key),
  }),
} as const;
