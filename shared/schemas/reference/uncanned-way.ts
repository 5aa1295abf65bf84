import { z } from 'zod';
import { family } from '../../family.ts';
import { uncannedKeepings, uncannedUnits } from '../item.ts';
import { basis, optionalNumberCell, optionalRangeCell, sourceKey, tableKey } from './cells.ts';

const optionalText = z.string().transform((text) => (text === '' ? null : text));

const supplyText = /^(\d+(?:\.\d+)?) (lb|qt|cup|oz|tbsp|tsp|each|package|pouch) (\S.*)$/;
const suppliesText = /^(?:\d+(?:\.\d+)? (?:lb|qt|cup|oz|tbsp|tsp|each|package|pouch) [^;]+(?:; |$))*$/;

const suppliesIn = (text: string) =>
  (text === '' ? [] : text.split('; ')).flatMap((part) => {
    const [, quantity, unit, name] = supplyText.exec(part) ?? [];
    return quantity === undefined || unit === undefined || name === undefined
      ? []
      : [{ quantity: Number(quantity), unit, name }];
  });

/**
 * A way to keep a food without a canner, as a guide prints it: frozen, dried, cellared, fermented or kept cold. What is left of
 * another batch may be what it is made of. Figures that the guide does not print are empty and the household's own.
 */
export const uncannedWayRow = z
  .object({
    way_key: tableKey,
    name: z.string().min(1),
    keeping: z.enum(uncannedKeepings),
    family,
    crop_key: optionalText,
    material: optionalText,
    unit: z.enum(uncannedUnits),
    lb_per_unit: optionalRangeCell,
    batch_units: optionalNumberCell,
    supplies: z
      .string()
      .regex(suppliesText, 'Expected amounts like 1.76 lb sugar; 1 package powdered pectin'),
    freezer_quarts: optionalNumberCell,
    blanch_minutes: optionalRangeCell,
    temp_f: optionalRangeCell,
    hours: optionalRangeCell,
    humidity_percent: optionalRangeCell,
    ready_days: optionalRangeCell,
    stages_of: optionalText,
    how: z.string().min(1),
    done_when: optionalText,
    note: optionalText,
    life_key: optionalText,
    source_id: sourceKey,
    source_locator: z.string().min(1),
    basis,
    yield_source_id: z.union([z.literal(''), sourceKey]),
    yield_locator: z.string(),
    yield_basis: z.union([z.literal(''), basis]),
  })
  .refine((row) => (row.lb_per_unit === null) === (row.yield_source_id === ''), {
    message: 'Expected a source of the yield where there is one, and none where there is none',
    path: ['yield_source_id'],
  })
  .refine((row) => row.yield_source_id === '' || (row.yield_locator !== '' && row.yield_basis !== ''), {
    message: 'Expected locator and basis of the yield',
    path: ['yield_locator'],
  })
  .refine((row) => row.supplies === '' || row.batch_units !== null, {
    message: 'Expected how many units what is bought is for',
    path: ['batch_units'],
  })
  .transform((row) => ({
    wayKey: row.way_key,
    name: row.name,
    keeping: row.keeping,
    family: row.family,
    cropKey: row.crop_key,
    material: row.material,
    unit: row.unit,
    lbPerUnit: row.lb_per_unit,
    batchUnits: row.batch_units,
    /** For `batchUnits` units. */
    supplies: suppliesIn(row.supplies),
    freezerQuarts: row.freezer_quarts,
    blanchMinutes: row.blanch_minutes,
    tempF: row.temp_f,
    hours: row.hours,
    humidityPercent: row.humidity_percent,
    readyDays: row.ready_days,
    /** Key of recipe-stages by whose stages it stands in a crock; null for what stands in none. */
    stagesOf: row.stages_of,
    steps: row.how.split(' | '),
    doneWhen: row.done_when,
    note: row.note,
    lifeKey: row.life_key,
    sourceId: row.source_id,
    locator: row.source_locator,
    basis: row.basis,
    yieldSource:
      row.yield_source_id === '' || row.yield_basis === ''
        ? null
        : { sourceId: row.yield_source_id, locator: row.yield_locator, basis: row.yield_basis },
  }));
export type UncannedWayRow = Readonly<z.output<typeof uncannedWayRow>>;
