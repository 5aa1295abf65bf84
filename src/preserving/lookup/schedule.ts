import type { JarSize } from '../../../shared/jar.ts';
import type { Acidity, Pack } from '../../../shared/schemas/reference/process-time.ts';
import type { Citation } from '../citation.ts';
import type { AcidDose } from './acid-dose.ts';
import type { FoodCondition } from './food-conditions.ts';
import type { JarRule } from './jar-rule.ts';

export const processMethods = ['boiling-water', 'atmospheric-steam', 'pressure'] as const;
export type ProcessMethod = (typeof processMethods)[number];

export const gauges = ['dial', 'weighted'] as const;
export type Gauge = (typeof gauges)[number];

/** What is asked of the published table. Altitude in feet, never defaulted; a gauge is needed for pressure only. */
export interface ProcessQuery {
  readonly foodKey: string;
  /** Needed only where the food is printed in several styles. */
  readonly style?: string;
  readonly pack: Pack;
  readonly jar: JarSize;
  readonly method: ProcessMethod;
  readonly gauge?: Gauge;
  readonly altitudeFt: number;
  /** Which printed alternative, where the table prints several for one jar and altitude. */
  readonly choice?: { readonly minutes?: number; readonly psi?: number };
  readonly conditions?: readonly FoodCondition[];
}

/** One printed row, whole, for the jar, canner and altitude asked. Minutes and psi always come from the same row. */
export interface Schedule {
  readonly foodKey: string;
  readonly food: string;
  readonly style: string;
  readonly acidity: Acidity;
  readonly pack: Pack;
  readonly method: ProcessMethod;
  readonly gauge: Gauge | null;
  /** The jar asked, and the jar whose row is used; they differ only by `jarRule`. */
  readonly jar: JarSize;
  readonly printedJar: JarSize;
  readonly jarRule: JarRule | null;
  readonly altitudeFt: number;
  readonly bandFromFt: number;
  /** `null` where no upper limit is printed. */
  readonly bandToFt: number | null;
  readonly minutes: number;
  /** Gauge pressure in pounds per square inch; `null` in boiling water and steam. */
  readonly psi: number | null;
  /** Inches between food and rim; `null` where the guide prints none. */
  readonly headspaceIn: number | null;
  /** The row's style asks for sterile jars; `needsSterileJars` says whether they are boiled first. */
  readonly sterileJars: boolean;
  /** Acid that goes into each jar before it is closed, in any canner; `null` where none is added per jar. */
  readonly acid: AcidDose | null;
  /** Least inches of water above the jars; `null` outside the boiling-water canner. */
  readonly waterAboveJarsIn: number | null;
  readonly source: Citation;
  /** Stable text key of the printed row, kept as evidence with the lot. */
  readonly rowKey: string;
}
