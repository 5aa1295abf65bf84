import { createHash } from 'node:crypto';
import { type SheetBasis, sheetStamp } from '../../../src/preserving/afterwards/process-evidence.ts';
import type { SessionHere } from '../../../src/preserving/day/session-here.ts';
import { type SheetChange, sheetChanges } from '../../../src/preserving/sheet/sheet-changes.ts';
import type { SheetProps } from '../../../views/pages/canning-day/sheet.tsx';
import type { TimelineProps } from '../../../views/pages/canning-day/timeline.tsx';
import { formatLongDate } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed } from '../../../views/words/sentences.ts';
import { presentCautions, presentSchedule } from '../../words/process-words.ts';
import { changedWords } from '../../words/recipe-changes.ts';
import { sheetSteps } from '../../words/sheet-steps.ts';
import { paperTimeline } from './present-timeline.ts';

/** A short mark that is the same exactly while what a sheet rests on is. */
export const sheetMark = (basis: readonly SheetBasis[]): string => {
  const stamps = basis.map(sheetStamp).toSorted().join('\n');
  const digest = createHash('sha256').update(stamps).digest('hex');
  return `${digest.slice(0, 4)}-${digest.slice(4, 8)}`;
};

const changeWords: Readonly<Record<SheetChange, string>> = {
  altitude: 'the altitude',
  canner: 'a canner',
  gauge: 'the gauge',
  'gauge-check': 'the gauge check',
  schedule: 'a schedule',
};

/** Why a sheet is void, in a sentence; null while it stands. */
export const voidWords = (printed: readonly SheetBasis[], today: readonly SheetBasis[]): string | null => {
  const changes = sheetChanges(printed, today);
  return changes.length === 0
    ? null
    : `Since it was printed, ${listed(changes.map((change) => changeWords[change]))} changed. What it says about minutes and pressure may no longer hold.`;
};

export function presentSheet(
  here: SessionHere,
  timeline: TimelineProps | null,
  {
    household,
    number,
    reading,
    days,
  }: {
    readonly household: string;
    readonly number: number | null;
    readonly reading: Reading;
    /** What is done on other days for these loads, a line each. */
    readonly days: readonly string[];
  },
): SheetProps | null {
  const canned = here.batches.flatMap((batch) =>
    batch.canned?.ok === true ? [{ batch, canned: batch.canned.value }] : [],
  );
  const [first] = canned;
  if (first === undefined) return null;
  const schedules = canned.map((one) => one.canned.schedule);
  return {
    title: formatLongDate(here.on, reading),
    household,
    number: number === null ? null : `Sheet ${number}`,
    mark: sheetMark(here.basis),
    batches: canned.map(({ batch, canned: { schedule, loads, canner } }) => ({
      key: batch.recipe.id,
      name: batch.headline,
      line: [batch.recipe.name, `in ${canner.name}`, ...changedWords(batch.recipe)].join(', '),
      schedule: presentSchedule(schedule, reading),
      loads: loads.map((load, at) => ({ key: load.key, name: `Load ${at + 1}`, jars: load.jars })),
    })),
    without: withoutTime(here),
    days,
    timeline: timeline === null ? [] : paperTimeline(timeline),
    steps: sheetSteps(
      canned.map((one) => ({ name: one.batch.item.name, steps: one.canned.steps })),
      reading,
    ),
    cautions: presentCautions(schedules),
  };
}

/** What is canned that day and has no time on this paper, and why. */
const withoutTime = ({ batches }: SessionHere): readonly string[] =>
  batches.flatMap(({ item, canned, heldBack, alternatives }) => {
    if (canned === null || canned.ok) return [];
    if (heldBack !== null)
      return [
        `${item.name}: do not can it yet. ${canned.problems.map(({ message }) => message).join(' ')} Print a new sheet once it is ready.`,
      ];
    return [
      alternatives.length > 0
        ? `${item.name}: not on this sheet, because no printed schedule was chosen for it.`
        : `${item.name}: not on this sheet, because no time can be given for it here.`,
    ];
  });
