import type { CannerId } from '../../shared/ids.ts';
import type { EmergencyAdviceRow } from '../../shared/schemas/reference/emergency-advice.ts';
import { addDays, addMonths, type CalendarDate } from '../../shared/week.ts';
import type { Household } from '../household/household.ts';
import type { Canner } from '../household/kitchen.ts';
import { emergencyAdvice } from '../shelf/emergency-shelf.ts';
import { dialCheckDays } from './canner.ts';

/** What a household does to a device again and again, in its own words. */
export interface OwnTask {
  readonly id: string;
  /** Null for a device that is no canner: then it is named. */
  readonly cannerId: CannerId | null;
  readonly device: string | null;
  readonly name: string;
  /** Null where it is done as needed. */
  readonly everyMonths: number | null;
}

export type UpkeepKind = 'gauge' | 'look-over' | 'own';

/** One time something was done. */
export interface UpkeepDone {
  readonly id: string;
  readonly kind: UpkeepKind;
  /** Of a check of a gauge and of a look over. */
  readonly cannerId: CannerId | null;
  /** Of the household's own tasks. */
  readonly taskId: string | null;
  readonly doneOn: CalendarDate;
  readonly note: string | null;
  /** What a check of a gauge found: psi it read too high, below 0 too low; null where that was not said. */
  readonly gaugeOff: Canner['gaugeOff'];
  readonly by: string | null;
}

/** Water that a household filled itself and keeps for an emergency. */
export interface StoredWater {
  readonly filledOn: CalendarDate | null;
  /** After so many months a public guide replaces it. */
  readonly everyMonths: number;
}

/** The water of a household that keeps some and filled it itself; null where it keeps none. */
export const storedWater = (
  { waterGallons, waterFilledOn }: Pick<Household, 'waterGallons' | 'waterFilledOn'>,
  rows: readonly EmergencyAdviceRow[],
): StoredWater | null =>
  (waterGallons ?? 0) <= 0
    ? null
    : { filledOn: waterFilledOn, everyMonths: emergencyAdvice(rows).replaceWaterMonths };

/** What a household has written down of upkeep; what was undone is left out. Oldest first as it was written down. */
export interface Upkeep {
  readonly tasks: readonly OwnTask[];
  readonly done: readonly UpkeepDone[];
}

/** One thing to look after, with when it was done and when it is due. */
export interface UpkeepLine {
  /** Names the line: `look-over.big-canner`. */
  readonly key: string;
  readonly kind: UpkeepKind | 'water';
  readonly cannerId: CannerId | null;
  readonly taskId: string | null;
  /** The canner's name or another device's; of the water kept for an emergency what it is called. */
  readonly device: string;
  /** The household's own words; null for what a guide asks for. */
  readonly name: string | null;
  readonly everyMonths: number | null;
  readonly last: CalendarDate | null;
  /** Null where it was never written down, or is done as needed. */
  readonly dueOn: CalendarDate | null;
  /** Newest first. */
  readonly history: readonly UpkeepDone[];
}

/**
 * A pressure canner is looked over once a year before the season: handles, openings, gasket, overpressure plug, vent pipe, and a
 * trial run with water. Ohio State University Extension (`pc.look_over_interval`); no guide gives an interval at which a gasket is
 * replaced: it is when it is loose, hard or cracked.
 */
export const lookOverMonths = 12;

/**
 * Every canner and device with what is to be done about it: the yearly check of a dial gauge (within 365 days, as the gate counts
 * it) and the look over a pressure canner from the guides, then the household's own tasks. A boiling-water or steam canner and a
 * weighted gauge have no published interval, so none is made up. Canners in the order given, then other devices by name, then
 * the water kept for an emergency.
 */
export function upkeepLines(
  { tasks, done }: Upkeep,
  canners: readonly Canner[],
  water: StoredWater | null = null,
): readonly UpkeepLine[] {
  const others = [...new Set(tasks.flatMap(({ device }) => device ?? []))].toSorted();
  return [
    ...canners.flatMap((canner) => [
      ...published(canner, done),
      ...tasks.filter(({ cannerId }) => cannerId === canner.id).map((task) => own(task, canner.name, done)),
    ]),
    ...others.flatMap((device) =>
      tasks.filter((task) => task.device === device).map((task) => own(task, device, done)),
    ),
    ...(water === null ? [] : [waterLine(water)]),
  ];
}

const waterLine = ({ filledOn, everyMonths }: StoredWater): UpkeepLine => ({
  key: 'water',
  kind: 'water',
  cannerId: null,
  taskId: null,
  device: 'Emergency water',
  name: null,
  everyMonths,
  last: filledOn,
  dueOn: filledOn === null ? null : addMonths(filledOn, everyMonths),
  history: [],
});

function published(canner: Canner, done: readonly UpkeepDone[]): readonly UpkeepLine[] {
  if (canner.method !== 'pressure') return [];
  const line = (kind: 'gauge' | 'look-over'): Omit<UpkeepLine, 'last' | 'dueOn' | 'everyMonths'> => ({
    key: `${kind}.${canner.id}`,
    kind,
    cannerId: canner.id,
    taskId: null,
    device: canner.name,
    name: null,
    history: newestFirst(done.filter((one) => one.kind === kind && one.cannerId === canner.id)),
  });
  const look = line('look-over');
  const lookedOn = lastOf(look.history);
  return [
    ...(canner.gauge === 'dial'
      ? [
          {
            ...line('gauge'),
            everyMonths: 12,
            last: canner.gaugeCheckedOn,
            dueOn: canner.gaugeCheckedOn === null ? null : addDays(canner.gaugeCheckedOn, dialCheckDays),
          },
        ]
      : []),
    {
      ...look,
      everyMonths: lookOverMonths,
      last: lookedOn,
      dueOn: lookedOn === null ? null : addMonths(lookedOn, lookOverMonths),
    },
  ];
}

function own(task: OwnTask, device: string, done: readonly UpkeepDone[]): UpkeepLine {
  const history = newestFirst(done.filter(({ taskId }) => taskId === task.id));
  const last = lastOf(history);
  return {
    key: `own.${task.id}`,
    kind: 'own',
    cannerId: task.cannerId,
    taskId: task.id,
    device,
    name: task.name,
    everyMonths: task.everyMonths,
    last,
    dueOn: last === null || task.everyMonths === null ? null : addMonths(last, task.everyMonths),
    history,
  };
}

/** The day it was last done counts, whenever that was written down. */
const newestFirst = (done: readonly UpkeepDone[]): readonly UpkeepDone[] =>
  done
    .map((one, at) => ({ one, at }))
    .toSorted((a, b) => (a.one.doneOn === b.one.doneOn ? b.at - a.at : a.one.doneOn < b.one.doneOn ? 1 : -1))
    .map(({ one }) => one);

const lastOf = ([newest]: readonly UpkeepDone[]): CalendarDate | null => newest?.doneOn ?? null;

/** Due on that day or before it. */
export const isDue = ({ dueOn }: Pick<UpkeepLine, 'dueOn'>, by: CalendarDate): boolean =>
  dueOn !== null && dueOn <= by;
