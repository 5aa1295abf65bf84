import type { CarriedTable } from '../../server/columns/carried-table.ts';
import { carried } from '../../server/columns/household-columns.ts';
import { householdRow } from '../../server/columns/kitchen.ts';
import { largestFileInBytes } from '../../server/files/household-reading.ts';
import type { Saved, SavedRow } from './spoilt-files.ts';

/** Columns whose greatest value would make the row another one: where it stands, or what else stands in it. */
const keptAsTheyAre =
  /(^|_)(seq|position|month|year|altitude_ft|psi|minutes_run|number|acid_ticked|steady_ms)$|_at$/;

/** A row with every number a household says at the end of its bound. */
function greatest(row: SavedRow, { columns, key }: CarriedTable): SavedRow {
  return Object.fromEntries(
    Object.entries(row).map(([name, value]) => {
      const bound = columns[name]?.bound;
      const mayChange = bound !== undefined && !key.includes(name) && !keptAsTheyAre.test(name);
      return [name, mayChange && typeof value === 'number' ? bound.to : value];
    }),
  );
}

/** The household with every number at its greatest: people, yields, minutes, loads, canners, jars, harvests, appetites. */
export function greatestHousehold<Kind extends Saved>(saved: Kind): Kind {
  const tables = Object.fromEntries(
    Object.entries(saved.tables).map(([name, rows]) => {
      const table: CarriedTable = carried[name as keyof typeof carried];
      const ofLedger = name.endsWith('_event') || name === 'shelf_count' || name === 'lot';
      return [name, ofLedger ? rows : rows.map((row) => greatest(row, table))];
    }),
  );
  // A canner's gauge that is far off is refused, and with it all its loads: what is asked here is the longest day.
  for (const canner of tables.canner ?? [])
    for (const name of Object.keys(canner))
      if (name.startsWith('gauge_off')) canner[name] = canner.gauge === 'dial' ? 0 : null;
  const session = tables.canning_session?.[0];
  if (session !== undefined) {
    session.setting_json = JSON.stringify({ by: 'end', time: '23:59', people: 20, burners: 20, rows: {} });
    session.work_json = JSON.stringify(
      (tables.recipe ?? []).map(({ id }) => ({ recipeId: id, batches: 40 })),
    );
  }
  return { ...saved, household: greatest(saved.household, householdRow), tables };
}

/** The longest ledger that fits into the largest file: jars put up and taken again, one by one. */
export function longestLedger<Kind extends Saved>(saved: Kind): Kind {
  const [lot] = saved.tables.lot ?? [];
  const [event] = saved.tables.jar_event ?? [];
  if (lot === undefined || event === undefined) throw new Error('expected a household with a ledger');
  const most = carried.jar_event.mostRows;
  const own = Buffer.byteLength(JSON.stringify({ ...saved, tables: { ...saved.tables, jar_event: [] } }));
  const row = (at: number): SavedRow => ({
    ...event,
    seq: at + 1,
    entry_id: `e${at}`,
    lot_id: lot.id,
    kind: at % 2 === 0 ? 'put up' : 'taken',
    units: at % 2 === 0 ? 1 : -1,
    reason: null,
    recorded_by: null,
    reverses_seq: null,
  });
  const room = largestFileInBytes - own - 100_000;
  const count = Math.min(most, Math.floor(room / (Buffer.byteLength(JSON.stringify(row(most))) + 4)));
  return {
    ...saved,
    tables: { ...saved.tables, jar_event: Array.from({ length: count }, (_, at) => row(at)) },
  };
}
