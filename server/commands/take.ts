import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import { bounds, letters } from '../../shared/bounds.ts';
import { isOrAre } from '../../shared/counting.ts';
import { type ItemId, itemId, lotId } from '../../shared/ids.ts';
import {
  choiceField,
  numberField,
  optionalChoiceField,
  optionalDateField,
  optionalTextField,
  tickField,
} from '../../shared/schemas/form-fields.ts';
import { optionalIdField } from '../../shared/schemas/id-fields.ts';
import { discardReasons, takeKinds } from '../../shared/schemas/shelf/take.ts';
import { fromReadersUnit } from '../../views/words/format.ts';
import { readingOf } from '../../views/words/reading.ts';
import { sentenceCase } from '../../views/words/sentences.ts';
import { memberNamed } from '../access/members.ts';
import { itemsOnShelf } from '../queries/household/items.ts';
import { take } from '../records/shelf/take.ts';
import { amountOf } from '../words/shelf-units.ts';
import { complain, couldNot, done, notUnderstood, readOptions, withHousehold } from './options.ts';

const given = {
  units: { type: 'string' },
  lot: { type: 'string' },
  on: { type: 'string' },
  kind: { type: 'string' },
  reason: { type: 'string' },
  'for-promise': { type: 'boolean' },
  by: { type: 'string' },
  key: { type: 'string' },
  database: { type: 'string' },
} as const;

const schema = z.object({
  item: optionalTextField('ITEM', letters.name).refine(
    (item) => item !== '',
    'Which item? For example: take peach-jam.',
  ),
  units: numberField({ label: '--units', ...bounds.unitsTaken, example: '1' }).prefault('1'),
  lot: optionalIdField('--lot', lotId, { like: 'the code on the label' }),
  on: optionalDateField('--on'),
  kind: choiceField('kind', takeKinds, (kind) => kind).prefault('taken'),
  reason: optionalChoiceField('--reason', discardReasons),
  'for-promise': tickField(),
  by: optionalTextField('--by', letters.person),
  key: optionalTextField('--key', 200),
  database: optionalTextField('--database', 1000),
});

/** Takes from the shelf: `take plum-jam`, or by name, `take "Plum jam" --units 2`. */
export async function run(args: readonly string[]): Promise<number> {
  const options = readOptions(args, given, schema, ['item']);
  if (!options.ok) return complain(options.problems, notUnderstood);
  const { item: named, units, lot, on, kind, reason, by, key, database } = options.value;
  return withHousehold({ demo: false, asOf: null, database }, async ({ db, household, at, today }) => {
    const items = await itemsOnShelf(db, household.id);
    const item = items.find(({ id, name }) => id === named || name.toLowerCase() === named.toLowerCase());
    const who = await memberNamed(db, household.id, by);
    if (!who.ok) return complain(who.problems, couldNot);
    const reading = readingOf(household, today);
    const weighs = item?.unit === 'lb';
    // As on the pages: what is weighed is taken in the weight the household reads.
    const counted = (said: number): number => (weighs ? fromReadersUnit(said, 'lb', reading) : said);
    const amount = (taken: number): string =>
      item !== undefined && weighs ? amountOf(item, taken, reading) : String(taken);
    const outcome = await take(
      { db, householdId: household.id, key: key === '' ? randomUUID() : key, at, today, by: 'command line' },
      {
        itemId: item?.id ?? asItemId(named),
        lotId: lot,
        jarKind: null,
        units: counted(units),
        kind,
        reason,
        occurredOn: on,
        late: false,
        forPromise: options.value['for-promise'],
        takenBy: who.value,
      },
    );
    if (!outcome.ok) return complain(outcome.problems, couldNot);
    const { from, conflictUnits } = outcome.value;
    for (const part of from)
      console.log(
        `${sentenceCase(kind)}: ${amount(part.units)} of ${item?.name ?? named}, from batch ${part.batchCode}.`,
      );
    if (conflictUnits > 0)
      console.log(
        `The shelf has ${from.length > 0 ? 'no more' : 'none'} written down, so ${amount(conflictUnits)} ${isOrAre(conflictUnits)} kept as a question. Settle it on the Shelf page.`,
      );
    return done;
  });
}

/** What is no id at all is still passed on, so that the answer names it. */
const asItemId = (text: string): ItemId => {
  const read = itemId.safeParse(text);
  return read.success ? read.data : (text as ItemId);
};
