import type { CannerFactRow } from '../../../shared/schemas/reference/canner-fact.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { Canner } from '../../../src/household/kitchen.ts';
import { factOf, inWords } from '../../../src/preserving/citation.ts';
import type { UpkeepDone, UpkeepLine } from '../../../src/preserving/upkeep.ts';
import type { UpkeepPageProps, UpkeepTaskProps } from '../../../views/pages/upkeep/upkeep-page.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatDate, formatNumber, formatQuantity } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { taskName } from '../../words/canning/upkeep-tasks.ts';
import { type SentBack, type StateOfForm, statesFrom } from '../shared/answer-form.ts';
import { dueWords, isSoon, upkeepSummary } from '../shared/upkeep-words.ts';

export interface UpkeepSetting {
  readonly today: CalendarDate;
  readonly reading: Reading;
  readonly facts: readonly CannerFactRow[];
  readonly canners: readonly Canner[];
  /** Tasks are added, removed and undone by whoever may change the kitchen. */
  readonly plans: boolean;
  readonly keys: () => FormKeys;
  readonly sentBack: SentBack | null;
}

export function presentUpkeep(
  lines: readonly UpkeepLine[],
  setting: UpkeepSetting,
): Omit<UpkeepPageProps, 'frame'> {
  const { today, reading, canners, plans, keys, sentBack } = setting;
  const others = [...new Set(lines.filter(({ cannerId }) => cannerId === null).map(({ device }) => device))];
  const state = statesFrom(keys, sentBack);
  return {
    line: upkeepSummary(lines, today, reading),
    devices: [
      ...canners.map(({ id, name, method, gauge }) => ({
        key: `canner-${id}`,
        name,
        line: cannerWords({ method, gauge }, setting),
        tasks: lines
          .filter(({ cannerId }) => cannerId === id)
          .map((line) => presentTask(line, setting, state)),
      })),
      ...others.map((device, at) => ({
        key: `device-${at + 1}`,
        name: device,
        line: null,
        tasks: lines
          .filter((line) => line.cannerId === null && line.device === device)
          .map((line) => presentTask(line, setting, state)),
      })),
    ],
    adding: plans
      ? {
          form: state('upkeep', { cannerId: '', device: '', name: '', everyMonths: '' }),
          canners: canners.map(({ id, name }) => ({ value: id, words: name })),
          devices: others,
        }
      : null,
  };
}

/** What the guides say of a device itself. */
function cannerWords(
  { method, gauge }: Pick<Canner, 'method' | 'gauge'>,
  { facts }: UpkeepSetting,
): string | null {
  if (method !== 'pressure') return 'No guide we read gives dates for it. Add what you do yourselves.';
  if (gauge !== 'weighted') return null;
  return `A weighted gauge needs no check. ${inWords(factOf(facts, 'pc.weighted_gauge_needs_check'))}`;
}

/** Id of the form of a line. */
export const upkeepFormId = (key: string): string => key.replaceAll('.', '-');

function presentTask(line: UpkeepLine, setting: UpkeepSetting, state: StateOfForm): UpkeepTaskProps {
  const { today, reading, facts, plans, keys } = setting;
  return {
    key: upkeepFormId(line.key),
    name: taskName(line),
    state: [
      line.last === null ? null : `last done ${formatDate(line.last, reading)}`,
      dueWords(line, today, reading),
    ]
      .filter((words) => words !== null)
      .join(', '),
    isDue: isSoon(line, today),
    how: howWords(line, facts, reading),
    writtenAt: writtenElsewhere(line),
    writing:
      line.kind === 'gauge' || line.kind === 'water'
        ? null
        : {
            kind: line.kind,
            of: line.cannerId !== null && line.kind === 'look-over' ? line.cannerId : (line.taskId ?? ''),
            form: state(upkeepFormId(line.key), { doneOn: today, note: '' }),
          },
    history: line.history.map((done) => ({
      key: done.id,
      words: doneWords(done, reading),
      undoKeys: plans ? keys() : null,
    })),
    removal:
      plans && line.taskId !== null ? { action: `/upkeep/tasks/${line.taskId}/removal`, keys: keys() } : null,
  };
}

/** A check of a gauge is its day and three figures, written beside the canner; water has its gallons. */
const writtenElsewhere = ({ kind, cannerId }: UpkeepLine): UpkeepTaskProps['writtenAt'] =>
  kind === 'gauge'
    ? { href: `/kitchen#canner-${cannerId}`, words: 'Write down a check' }
    : kind === 'water'
      ? { href: '/targets#emergency', words: 'Write down the day you filled it' }
      : null;

/** What a guide asks for and where it says so; of an own task how often it is done. */
function howWords(
  { kind, everyMonths }: UpkeepLine,
  facts: readonly CannerFactRow[],
  reading: Reading,
): string | null {
  if (kind === 'own')
    return everyMonths === null ? null : `You do it every ${formatQuantity(everyMonths, 'month', reading)}.`;
  if (kind === 'gauge')
    return `Each year before use; it counts for 365 days. ${inWords(factOf(facts, 'pc.dial_gauge_check_interval'))}`;
  if (kind === 'water')
    return `A public guide replaces water you filled yourself every ${formatQuantity(everyMonths ?? 0, 'month', reading)}.`;
  const look = factOf(facts, 'pc.look_over');
  return `Once a year: ${look.value}. Put in another gasket when it is loose, hard or cracked; no guide we read names an age. ${inWords(look)}`;
}

const signed = (value: number, reading: Reading): string =>
  `${value > 0 ? '+' : value < 0 ? '−' : ''}${formatNumber(Math.abs(value), reading)}`;

function doneWords({ doneOn, note, by, gaugeOff }: UpkeepDone, reading: Reading): string {
  const off =
    gaugeOff === null
      ? ''
      : `: off by ${signed(gaugeOff.at5, reading)}, ${signed(gaugeOff.at10, reading)} and ${signed(gaugeOff.at15, reading)} psi at 5, 10 and 15`;
  return `${formatDate(doneOn, reading)}${off}${note === null ? '' : `: ${note}`}${by === null ? '' : `, ${by}`}`;
}
