import { counted } from '../../../shared/counting.ts';
import type { Problem } from '../../../shared/problems.ts';
import type { Acidity } from '../../../shared/schemas/reference/process-time.ts';
import type { Schedule } from '../lookup/schedule.ts';

/** How a load was really processed; kept with its lot. */
export interface ProcessEvidence {
  readonly rowKey: string;
  readonly altitudeFt: number;
  readonly psi: number | null;
  readonly minutesRun: number;
  readonly acidTicked: boolean;
}

/**
 * Where the evidence falls short of the schedule: another row, another altitude band, too few minutes, too little
 * pressure, acid not ticked. An empty list means the load was processed as published; anything else must not be shelved.
 */
export const evidenceProblems = (evidence: ProcessEvidence, schedule: Schedule): readonly Problem[] => {
  const problems: Problem[] = [];
  const say = (code: string, field: string, message: string): void => {
    problems.push({ code, path: [field], message: `${message} ${whatNow}` });
  };
  if (evidence.rowKey !== schedule.rowKey) {
    say('other-schedule', 'rowKey', `The schedule here is ${schedule.rowKey}, not ${evidence.rowKey}.`);
  }
  const belowBand = evidence.altitudeFt <= schedule.bandFromFt - 1 || evidence.altitudeFt < 0;
  if (belowBand || evidence.altitudeFt > (schedule.bandToFt ?? Number.POSITIVE_INFINITY)) {
    say('other-altitude', 'altitudeFt', `The schedule is not for ${evidence.altitudeFt} ft.`);
  }
  if (!(evidence.minutesRun >= schedule.minutes)) {
    say(
      'too-short',
      'minutesRun',
      `${counted(evidence.minutesRun, 'minute is', 'minutes are')} too few: the schedule is ${counted(schedule.minutes, 'minute')} without a break.`,
    );
  }
  if (schedule.psi !== null && !((evidence.psi ?? 0) >= schedule.psi)) {
    say(
      'too-little-pressure',
      'psi',
      `${evidence.psi ?? 'No'} psi is too little: the schedule is ${schedule.psi} psi.`,
    );
  }
  if (schedule.acid !== null && !evidence.acidTicked) {
    say('acid-missing', 'acidTicked', 'Acid goes into every jar, and it was not ticked.');
  }
  return problems;
};

const whatNow =
  'Do not shelve these jars: within 24 hours process them again in full with new lids, or freeze or refrigerate them.';

/** Whether food received from others counts as food: its process is unknown, so low-acid or unnamed food does not. */
export const receivedCounts = (acidity: Acidity | 'unknown'): boolean =>
  acidity === 'acid' || acidity === 'acidified';

/** What a printed sheet rests on; when any of it changes, sheets printed before are void. */
export interface SheetBasis {
  readonly altitudeFt: number;
  readonly canner: string;
  readonly gauge: string | null;
  readonly gaugeCheckedOn: string | null;
  readonly rowKeys: readonly string[];
}

/** Text that is equal exactly when the basis is; printed small on each sheet and compared later. */
export const sheetStamp = (basis: SheetBasis): string =>
  JSON.stringify([
    basis.altitudeFt,
    basis.canner,
    basis.gauge,
    basis.gaugeCheckedOn,
    basis.rowKeys.toSorted((left, right) => (left < right ? -1 : Number(left > right))),
  ]);

export const isVoid = (printedStamp: string, today: SheetBasis): boolean =>
  printedStamp !== sheetStamp(today);
