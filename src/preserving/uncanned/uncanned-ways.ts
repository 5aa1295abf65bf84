import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { UncannedWayRow } from '../../../shared/schemas/reference/uncanned-way.ts';

type WayTables = Pick<ReferenceTables, 'uncannedWays'>;

/** What a recipe is based on that follows a way of the book, before the key of the way. */
const prefix = 'uncanned:';

export const basedOnWay = (wayKey: string): string => `${prefix}${wayKey}`;

/** The way of the book a household's recipe follows; `undefined` where it follows none. */
export const wayOf = (
  { basedOn }: { readonly basedOn: string },
  { uncannedWays }: WayTables,
): UncannedWayRow | undefined =>
  basedOn.startsWith(prefix)
    ? uncannedWays.find(({ wayKey }) => wayKey === basedOn.slice(prefix.length))
    : undefined;

export const wayByKey = (wayKey: string, { uncannedWays }: WayTables): UncannedWayRow | undefined =>
  uncannedWays.find((way) => way.wayKey === wayKey);

/** The by-products a way may be made of, by name; empty for what is made of none. */
export const materialsOfWay = ({ material }: Pick<UncannedWayRow, 'material'>): readonly string[] =>
  material === null ? [] : material.split('; ');

/** Ways of the book that are made of a by-product, in the order of their table. */
export const waysMadeOf = (name: string, { uncannedWays }: WayTables): readonly UncannedWayRow[] =>
  uncannedWays.filter((way) => materialsOfWay(way).includes(name.toLowerCase()));
