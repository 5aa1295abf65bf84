import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { cropKey } from '../../shared/ids.ts';
import { jarKind } from '../../shared/jar.ts';
import { type Cents, cents } from '../../shared/money.ts';
import { ShelfwardError } from '../../shared/problems.ts';
import { numberCell, optionalNumberCell } from '../../shared/schemas/reference/cells.ts';
import { cropInWords } from '../../src/harvest/crop-name.ts';
import type { VesselGuesses } from '../../src/planning/year/vessels.ts';
import { severalOf } from '../../views/words/format.ts';
import { programFile } from '../program.ts';
import { readTable } from './read-table.ts';

// Where a first year starts: our own guesses, none published. Their dictionary is seed-data/first-year/README.md.

const shippedFolder = programFile('seed-data/first-year/');
const centsCell = numberCell.pipe(cents);

const commonPreserve = z
  .object({
    recipe_key: z.string().min(1),
    name: z.string().min(1),
    jar_kind: jarKind,
    jars: optionalNumberCell,
    per: z.enum(['month', 'year', 'none']),
  })
  .transform((row) => ({
    recipeKey: row.recipe_key,
    name: row.name,
    jarKind: row.jar_kind,
    usual: row.per === 'none' || row.jars === null ? null : { amount: row.jars, per: row.per },
  }));
export type CommonPreserve = Readonly<z.output<typeof commonPreserve>>;

const cropGuess = z
  .object({
    crop: cropKey,
    plural: z.string().min(1),
    market_cents_per_lb: centsCell,
    picking_cents_per_lb: centsCell,
    garden_lb_per_week: numberCell,
    bought_lb_per_week: numberCell,
    use_by_days: numberCell,
  })
  .transform((row) => ({
    crop: row.crop,
    plural: row.plural,
    marketPerLb: row.market_cents_per_lb,
    pickingPerLb: row.picking_cents_per_lb,
    gardenLbPerWeek: row.garden_lb_per_week,
    boughtLbPerWeek: row.bought_lb_per_week,
    useByDays: row.use_by_days,
  }));
export type CropGuess = Readonly<z.output<typeof cropGuess>>;

const supplyGuess = z
  .object({ name: z.string().min(1), unit: z.string().min(1), pack: numberCell, pack_cents: centsCell })
  .transform((row) => ({ name: row.name, unit: row.unit, pack: row.pack, price: row.pack_cents }));
export type SupplyGuess = Readonly<z.output<typeof supplyGuess>>;

const jarGuess = z
  .object({ kind: jarKind, pack: numberCell, pack_cents: centsCell, on_hand: numberCell })
  .transform((row) => ({ kind: row.kind, pack: row.pack, price: row.pack_cents, onHand: row.on_hand }));
export type JarGuess = Readonly<z.output<typeof jarGuess>>;

export interface FirstYear {
  readonly preserves: readonly CommonPreserve[];
  readonly crops: readonly CropGuess[];
  readonly supplies: readonly SupplyGuess[];
  readonly jars: readonly JarGuess[];
}

let loaded: FirstYear | null = null;

/** The guesses a household begins with, read once. */
export function firstYear(): FirstYear {
  loaded ??= {
    preserves: load('preserves.csv', commonPreserve),
    crops: load('crops.csv', cropGuess),
    supplies: load('supplies.csv', supplyGuess),
    jars: load('jars.csv', jarGuess),
  };
  return loaded;
}

function load<Row>(file: string, schema: z.ZodType<Row>): readonly Row[] {
  const outcome = readTable(file, readFileSync(`${shippedFolder}${file}`, 'utf8'), schema);
  if (outcome.ok) return outcome.value;
  throw new ShelfwardError('first-year-broken', outcome.problems.map(({ message }) => message).join('\n'));
}

/** A box of a dozen new lids; our own guess. */
export const lidBox = { box: 12, boxPrice: 499 as Cents };

/** What jars and lids are taken to cost where the household has not said. */
export const vesselGuesses = (): VesselGuesses => ({ jars: firstYear().jars, lids: lidBox });

const unknownPack = { pack: 1, price: 400 as Cents };

/** Pack and price a new supply begins with; one of a unit for four dollars where the list names none. */
export const supplyGuessFor = (name: string, unit: string): Omit<SupplyGuess, 'name' | 'unit'> =>
  firstYear().supplies.find((known) => known.name === name && known.unit === unit) ?? unknownPack;

/** What is guessed of a crop; an ordinary one where the list names none. */
export const cropGuessFor = (crop: string): Omit<CropGuess, 'crop'> =>
  firstYear().crops.find((known) => known.crop === crop) ?? {
    plural: severalOf(cropInWords(crop)),
    marketPerLb: 250 as Cents,
    pickingPerLb: 170 as Cents,
    gardenLbPerWeek: 4,
    boughtLbPerWeek: 25,
    useByDays: 3,
  };
