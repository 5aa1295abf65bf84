import { type JarSize, jarSizes, nominalMl } from '../../../shared/jar.ts';
import type { CannerFactRow } from '../../../shared/schemas/reference/canner-fact.ts';
import { type Citation, citationOf, factOf } from '../citation.ts';

/** The cited rule by which a jar without its own printed row uses the row of a larger tested jar. */
export interface JarRule {
  readonly rule: string;
  readonly source: Citation;
}

export type TestedJar =
  | { readonly kind: 'printed'; readonly jar: JarSize }
  | { readonly kind: 'by-rule'; readonly jar: JarSize; readonly rule: JarRule }
  | { readonly kind: 'larger-than-tested'; readonly largest: JarSize; readonly rule: JarRule };

const smallestFirst: readonly JarSize[] = [...jarSizes].sort(
  (left, right) => nominalMl[left] - nominalMl[right],
);

const factKeyFor = (asked: JarSize, used: JarSize): string => {
  if (asked === 'quarter-pint' && used === 'half-pint') return 'jar_rule.4oz';
  if (asked === 'half-pint' && used === 'pint') return 'jar_rule.half_pint_uses';
  if (asked === '12-oz' && used === 'pint') return 'jar_rule.12oz';
  if (asked === '24-oz' && used === 'quart') return 'jar_rule.pint_and_half_uses';
  if (asked === '28-oz' && used === 'quart') return 'jar_rule.24oz_28oz';
  return 'jar_rule.smaller_jar_uses';
};

/**
 * Which printed jar a jar may be processed as: its own row where there is one, else the next larger tested size, never a
 * smaller one. Sizes are compared by nominal volume, so 500 mL counts as larger than a pint and uses the quart row.
 *
 * Sources: USDA Complete Guide 1, p1-23; Kansas State University (4, 12, 24 and 28 oz); National Center for Home Food
 * Preservation, jar size choices (smaller: next larger tested; larger: no process).
 */
export const testedJarFor = (
  asked: JarSize,
  tested: ReadonlySet<JarSize>,
  facts: readonly CannerFactRow[],
): TestedJar => {
  if (tested.has(asked)) return { kind: 'printed', jar: asked };
  const used = smallestFirst.find((jar) => tested.has(jar) && nominalMl[jar] > nominalMl[asked]);
  if (used) {
    const fact = factOf(facts, factKeyFor(asked, used));
    const rule = `A ${asked} jar has no row of its own and is processed as the next larger tested size, ${used}`;
    return { kind: 'by-rule', jar: used, rule: { rule, source: citationOf(fact) } };
  }
  const largest = smallestFirst.findLast((jar) => tested.has(jar)) ?? asked;
  const fact = factOf(facts, 'jar_rule.larger_than_largest_tested');
  const rule = `A ${asked} jar is larger than the largest tested size for this food, ${largest}`;
  return { kind: 'larger-than-tested', largest, rule: { rule, source: citationOf(fact) } };
};
