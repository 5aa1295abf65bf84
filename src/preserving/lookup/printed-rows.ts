import { folded } from '../../../shared/folded.ts';
import { groupedBy } from '../../../shared/grouped-by.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import type { CannerFactRow } from '../../../shared/schemas/reference/canner-fact.ts';
import type { PrintedMethod, ProcessTimeRow } from '../../../shared/schemas/reference/process-time.ts';
import { citationOf, cite, fromMemory } from '../citation.ts';
import { untestedFoodRefusal } from '../foods/untested-foods.ts';
import { allowed, forbidden, type Refusal, type Ruling, refusal } from '../refusal.ts';
import { type JarRule, testedJarFor } from './jar-rule.ts';
import type { Gauge, ProcessMethod, ProcessQuery } from './schedule.ts';

// Each step narrows the printed rows by one thing that was asked, or refuses and says what is printed instead.

/** No place where people cook lies higher; a larger number is a slip of the pen or another unit. */
export const highestAltitudeFt = 30_000;

const askExtension = 'Ask the local extension service, or refrigerate or freeze the food.';
const wholeGuide = cite('USDA-G1', 'p1-8, p1-17');

/** At least one row. */
export type SomeRows = readonly [ProcessTimeRow, ...ProcessTimeRow[]];

type Rows = readonly ProcessTimeRow[];

const distinct = <T>(values: readonly T[]): T[] => [...new Set(values)];

const rowsByFood = whileTheSame('all', ({ all }: { readonly all: Rows }) =>
  groupedBy(all, (row) => row.foodKey),
);

export const rowsOfStyle = (all: Rows, query: ProcessQuery): Ruling<Rows> => {
  const key = folded(query.foodKey);
  const ofFood = rowsByFood({ all }).get(key) ?? [];
  const styles = distinct(ofFood.map((row) => row.style));
  const wanted = query.style === undefined ? undefined : folded(query.style);
  const style =
    wanted === undefined && styles.length === 1
      ? styles[0]
      : styles.find((printed) => folded(printed) === wanted);
  if (style !== undefined) return allowed(ofFood.filter((row) => row.style === style));

  const named = untestedFoodRefusal(`${query.foodKey} ${query.style ?? ''}`);
  if (named) return forbidden(named);
  if (ofFood.length === 0) return forbidden(unknownFood(all, query.foodKey));
  if (query.method !== 'pressure' && ofFood.every((row) => row.acidity === 'low-acid')) {
    return forbidden(lowAcidNeedsPressure());
  }
  const listed = styles.map((printed) => `"${printed}"`).join(', ');
  const rule =
    wanted === undefined
      ? 'This food is printed in several styles, each with its own times'
      : `The style ${JSON.stringify(query.style)} is not printed for this food`;
  return forbidden(
    refusal('style-unknown', 'style', rule, citationOf(firstOf(ofFood)), `Choose one of: ${listed}.`),
  );
};

const mostNamed = 6;

const wordsOf = (text: string): string[] =>
  (folded(text).match(/[a-z]{3,}/g) ?? []).map((word) => word.replace(/s$/, ''));

const unknownFood = (all: Rows, foodKey: string): Refusal => {
  const said = distinct(wordsOf(foodKey));
  const alikeness = new Map<string, number>();
  for (const row of all) {
    const printed = wordsOf(`${row.foodKey} ${row.food} ${row.style}`);
    const shared = said.filter((word) => printed.includes(word)).length;
    if (shared > 0) alikeness.set(row.foodKey, Math.max(shared, alikeness.get(row.foodKey) ?? 0));
  }
  const alike = [...alikeness].sort(([, left], [, right]) => right - left).map(([key]) => key);
  const named = alike.slice(0, mostNamed).join(', ');
  return refusal(
    'food-unknown',
    'foodKey',
    `No tested process for ${JSON.stringify(foodKey)} stands in the table`,
    cite('USDA-G1', 'p1-8'),
    named === '' ? askExtension : `Foods of a like name: ${named}. ${askExtension}`,
  );
};

const lowAcidNeedsPressure = (): Refusal =>
  refusal(
    'low-acid-needs-pressure',
    'method',
    'Low-acid food is processed in a pressure canner only; boiling water and steam do not get hot enough to destroy botulism spores',
    wholeGuide,
    'Use a pressure canner, or freeze the food.',
  );

const printedMethodOf = (method: ProcessMethod, gauge: Gauge | undefined): PrintedMethod | undefined => {
  if (method !== 'pressure') return 'boiling-water';
  return gauge && `pressure-${gauge}`;
};

export const rowsOfMethod = (rows: Rows, query: ProcessQuery): Ruling<Rows> => {
  if (query.method !== 'pressure' && rows.some((row) => row.acidity === 'low-acid')) {
    return forbidden(lowAcidNeedsPressure());
  }
  const method = printedMethodOf(query.method, query.gauge);
  if (!method) {
    return forbidden(
      refusal(
        'gauge-not-stated',
        'gauge',
        'A pressure schedule depends on the gauge, which was not stated',
        cite('USDA-G1', 'p1-20'),
        'Say whether the canner has a dial gauge or a weighted gauge.',
      ),
    );
  }
  const matching = rows.filter((row) => row.method === method);
  if (matching.length > 0) return allowed(matching);
  const methods = distinct(rows.map((row) => row.method)).join(', ');
  return forbidden(
    refusal(
      'method-not-printed',
      'method',
      `No ${method} schedule is printed for this food and style`,
      citationOf(firstOf(rows)),
      `Printed for it: ${methods}.`,
    ),
  );
};

export const rowsOfPack = (rows: Rows, query: ProcessQuery): Ruling<Rows> => {
  const matching = rows.filter((row) => row.pack === query.pack);
  if (matching.length > 0) return allowed(matching);
  const packs = distinct(rows.map((row) => row.pack)).join(' or ');
  return forbidden(
    refusal(
      'pack-not-printed',
      'pack',
      `No ${query.pack} pack is printed for this food, style and canner`,
      citationOf(firstOf(rows)),
      `Printed for it: ${packs}.`,
    ),
  );
};

export const rowsOfJar = (
  rows: Rows,
  query: ProcessQuery,
  facts: readonly CannerFactRow[],
): Ruling<{ readonly rows: Rows; readonly rule: JarRule | null }> => {
  const tested = testedJarFor(query.jar, new Set(rows.map((row) => row.jar)), facts);
  if (tested.kind === 'larger-than-tested') {
    return forbidden(
      refusal(
        'jar-larger-than-tested',
        'jar',
        tested.rule.rule,
        tested.rule.source,
        `Use ${tested.largest} jars or smaller.`,
      ),
    );
  }
  return allowed({
    rows: rows.filter((row) => row.jar === tested.jar),
    rule: tested.kind === 'by-rule' ? tested.rule : null,
  });
};

/** Metres turned into feet may miss an edge by a rounding error of the machine; a billionth of a foot is no altitude. */
const feetTolerance = 1e-6;

export const isInBand = (row: ProcessTimeRow, altitudeFt: number): boolean => {
  const aboveLower =
    row.altitudeFromFt === 0 ? altitudeFt >= 0 : altitudeFt > row.altitudeFromFt - 1 + feetTolerance;
  return aboveLower && (row.altitudeToFt === null || altitudeFt <= row.altitudeToFt + feetTolerance);
};

export const rowsOfBand = (rows: Rows, query: ProcessQuery): Ruling<SomeRows> => {
  const [first, ...others] = rows.filter((row) => isInBand(row, query.altitudeFt));
  if (first) return allowed([first, ...others]);
  const highest = Math.max(...rows.map((row) => row.altitudeToFt ?? highestAltitudeFt));
  const dial = query.method === 'pressure' && query.gauge === 'dial';
  return forbidden(
    refusal(
      'altitude-not-printed',
      'altitudeFt',
      `No row is printed for this jar at ${query.altitudeFt} ft; the table ends at ${highest.toLocaleString('en-US')} ft`,
      citationOf(firstOf(rows)),
      dial
        ? 'Above 8,000 ft use a weighted gauge, or freeze the food.'
        : `Use another printed style or canner, or ${askExtension.charAt(0).toLowerCase()}${askExtension.slice(1)}`,
    ),
  );
};

export const notRead = (row: ProcessTimeRow): Refusal =>
  refusal(
    'row-not-read',
    'foodKey',
    `The row for ${row.food}, ${row.jar}, at this altitude was not seen in the publication and is not served`,
    fromMemory(row.locator),
    'Look the time up in the current official guide, or refrigerate or freeze the food.',
  );

export const chosenAmong = (rows: Rows, query: ProcessQuery): Ruling<SomeRows> => {
  const { minutes, psi } = query.choice ?? {};
  const [first, ...others] = rows.filter(
    (row) => (minutes === undefined || row.minutes === minutes) && (psi === undefined || row.psi === psi),
  );
  if (first) return allowed([first, ...others]);
  const listed = rows.map((row) =>
    row.psi === null ? `${row.minutes} min` : `${row.minutes} min at ${row.psi} psi`,
  );
  return forbidden(
    refusal(
      'choice-not-printed',
      'choice',
      `The chosen schedule (${minutes ?? 'any'} min, ${psi ?? 'any'} psi) is not printed for this jar and altitude`,
      citationOf(firstOf(rows)),
      `Choose one of: ${listed.join(', ')}.`,
    ),
  );
};

const firstOf = (rows: Rows): ProcessTimeRow => {
  const [first] = rows;
  if (!first) throw new RangeError('firstOf: expected at least one row');
  return first;
};
