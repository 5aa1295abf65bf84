import { z } from 'zod';
import { optionalTextField, tickField } from '../../shared/schemas/form-fields.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { Item } from '../../src/household/item.ts';
import type { LotOnShelf } from '../../src/household/lot.ts';
import { isKeptTooLong } from '../../src/shelf/best-quality.ts';
import { formatDate, formatJarKind } from '../../views/words/format.ts';
import { type Reading, readingOf } from '../../views/words/reading.ts';
import { shelfByItem } from '../queries/shelf/shelf.ts';
import { amountOf } from '../words/shelf-units.ts';
import { complain, done, notUnderstood, readOptions, usualOptions, withHousehold } from './options.ts';

const schema = z.object({
  demo: tickField(),
  json: tickField(),
  database: optionalTextField('--database', 1000),
});

const { demo: demoOption, json: jsonOption, database: databaseOption } = usualOptions;

/** Prints what is on the shelf, each item with its batches, the one to eat first on top. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, { demo: demoOption, json: jsonOption, database: databaseOption }, schema);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const { demo, json, database } = options.value;
  return withHousehold({ demo, database, asOf: null }, async ({ db, household, today }) => {
    const shelf = await shelfByItem(db, household.id);
    const reading = readingOf(household, today);
    if (json) {
      console.log(JSON.stringify({ asOf: today, shelf }, null, 1));
      return done;
    }
    for (const { item, lots, units } of shelf) {
      console.log(`${item.name}: ${units > 0 ? amountOf(item, units, reading) : 'none'}`);
      for (const lot of lots) console.log(`  ${lotLine(item, lot, reading, today)}`);
    }
    return done;
  });
}

function lotLine(item: Item, lot: LotOnShelf, reading: Reading, today: CalendarDate): string {
  const kind =
    lot.jarKind === null || lot.jarKind === item.usualJar ? '' : ` (${formatJarKind(lot.jarKind)})`;
  const place = lot.place === null ? '' : `, ${lot.place.name}`;
  const old = isKeptTooLong(lot, today) ? '; KEPT TOO LONG: throw it away' : '';
  const aside = lot.setAside === null ? old : `; SET ASIDE: ${lot.setAside.reason}`;
  const left = item.unit === 'lb' ? amountOf(item, lot.unitsLeft, reading) : lot.unitsLeft;
  return `${lot.batchCode}  ${left} left${kind}, best quality until ${formatDate(lot.bestQualityUntil, reading)}${place}${aside}`;
}
