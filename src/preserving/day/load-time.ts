import { type JarSize, nominalMl } from '../../../shared/jar.ts';
import type { CannerFactRow } from '../../../shared/schemas/reference/canner-fact.ts';
import type { PrintedRange } from '../../../shared/schemas/reference/cells.ts';
import { type Citation, citationOf, factOf, factRange } from '../citation.ts';
import type { ProcessMethod, Schedule } from '../lookup/schedule.ts';

/** What a canner does in one load, in order. */
export type LoadPhaseName =
  | 'heat-up'
  | 'heat-up-and-vent'
  | 'vent'
  | 'pressurise'
  | 'process'
  | 'depressurise'
  | 'wait';

export interface LoadPhase {
  readonly name: LoadPhaseName;
  /** Published minutes; the processing time has equal ends and is never anything but the schedule's. */
  readonly minutes: PrintedRange;
  readonly source: Citation;
}

export type RangeEnd = 'low' | 'high';

type Process = Pick<Schedule, 'method' | 'minutes' | 'foodKey' | 'source'> & { readonly jar: JarSize };

/**
 * The phases of one canner load from jars in to jars out. Boiling water: heat up 20–30 min, process, wait 5. Pressure:
 * heat up 12–15, vent 10, pressurise 3–5, process, depressurise 20–60, wait 10; quarts of fish take at least 30 minutes
 * to heat and vent. For a steam canner no heat-up time is published; the longer one of the boiling-water canner stands in.
 *
 * Sources: USDA Complete Guide 1, p1-17, p1-18, p1-20, p1-22; Guide 5, p5-12 (fish).
 */
export const loadPhases = (process: Process, facts: readonly CannerFactRow[]): readonly LoadPhase[] => {
  const published = (name: LoadPhaseName, key: string): LoadPhase => ({
    name,
    minutes: factRange(facts, key),
    source: citationOf(factOf(facts, key)),
  });
  const timed: LoadPhase = {
    name: 'process',
    minutes: { low: process.minutes, high: process.minutes },
    source: process.source,
  };
  if (process.method === 'pressure') {
    return [
      ...heatAndVent(process, published, facts),
      published('pressurise', 'pc.pressurize'),
      timed,
      published('depressurise', 'pc.depressurize'),
      published('wait', 'pc.wait_after_weight_removed'),
    ];
  }
  const heatUp = published('heat-up', 'bwc.heat_up_to_boil');
  return [
    process.method === 'atmospheric-steam'
      ? {
          ...heatUp,
          source: { ...heatUp.source, locator: `${heatUp.source.locator}, of a boiling-water canner` },
        }
      : heatUp,
    timed,
    published('wait', 'bwc.wait_after_heat_off'),
  ];
};

const heatAndVent = (
  process: Process,
  published: (name: LoadPhaseName, key: string) => LoadPhase,
  facts: readonly CannerFactRow[],
): LoadPhase[] => {
  const heatUp = published('heat-up', 'pc.heat_up_to_vent');
  const vent = published('vent', 'pc.vent');
  const fishQuarts = process.foodKey === 'fish' && nominalMl[process.jar] > nominalMl.pint;
  if (!fishQuarts) return [heatUp, vent];
  const least = published('heat-up-and-vent', 'pc.fish_quart.min_heat_and_vent');
  const high = Math.max(least.minutes.low, heatUp.minutes.high + factRange(facts, 'pc.vent').high);
  return [{ ...least, minutes: { low: least.minutes.low, high } }];
};

/** Minutes of one load from jars in to jars out, at one end of the published ranges; plans use the high end. */
export const loadMinutes = (
  process: Process,
  facts: readonly CannerFactRow[],
  end: RangeEnd = 'high',
): number => loadPhases(process, facts).reduce((sum, phase) => sum + phase.minutes[end], 0);

export interface LoadsOfBatch {
  readonly loads: number;
  /** Jars that are kept in the refrigerator and eaten first instead of going into a load: 0 or 1. */
  readonly jarsAside: number;
}

/**
 * Whole loads of one batch: its jars over those a load holds, rounded up. Where one jar alone would need another load, it is set
 * aside: filled last, kept in the refrigerator and eaten first, or not filled at all. A batch has its loads to itself.
 *
 * Example: 9 jars where 8 fit are one load and a jar aside; 17 are two loads and a jar aside; 10 are two loads.
 */
export function loadsOfBatch(jars: number, perLoad: number): LoadsOfBatch {
  const whole = Math.ceil(jars - 1e-9);
  const full = Math.floor(whole / perLoad);
  return full >= 1 && perLoad > 1 && whole - full * perLoad === 1
    ? { loads: full, jarsAside: 1 }
    : { loads: Math.ceil(whole / perLoad), jarsAside: 0 };
}

/** Only in the boiling-water canner must someone do nothing but watch the boil; said for the sheet. */
export const clockStarts: Readonly<Record<ProcessMethod, string>> = {
  'boiling-water': 'when the water is back at a full rolling boil',
  'atmospheric-steam': 'when a full column of steam has come steadily from the vents',
  pressure: 'when the gauge has reached the pressure, after 10 minutes of venting',
};
