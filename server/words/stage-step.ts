import { asDate } from '../../shared/week.ts';
import type { LocalDateTime } from '../../src/household/begun.ts';
import type { RecipeStage } from '../../src/preserving/stages/recipe-stages.ts';
import {
  hoursBetweenWords,
  hoursWords,
  localDateTime,
  type NextStage,
} from '../../src/preserving/stages/stages-done.ts';
import type { FormKeys } from '../../views/parts/form.tsx';
import type { StageStep } from '../../views/parts/stages.tsx';
import { formatTimeOfDay, formatWeekday } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';

export interface StepSetting {
  readonly reading: Reading;
  readonly timeZone: string;
  readonly now: number;
  readonly keys: () => FormKeys;
}

/** `Sat, Aug 22, 9:00 AM` */
export const localWords = (time: LocalDateTime, reading: Reading): string => {
  const [hour = 0, minute = 0] = time.slice(11).split(':').map(Number);
  return `${formatWeekday(asDate(time.slice(0, 10)), reading)}, ${formatTimeOfDay(hour * 60 + minute, reading)}`;
};

/** A stage with the form that writes it down. */
export function presentStep(
  { stage, from, until, isLast }: NextStage,
  { reading, timeZone, now, keys }: StepSetting,
  form: Pick<StageStep, 'action' | 'carried' | 'batches'>,
): StageStep {
  const clock = localDateTime(now, timeZone);
  return {
    key: `${form.action}-${form.carried[0]?.value ?? ''}-${stage.position}-${stage.way ?? 'way'}`,
    what: stage.what,
    wait: isLast ? '' : `${stage.way === null ? '' : `${stage.way}: `}${waitWords(stage)}`,
    when:
      from === ''
        ? null
        : `${from > clock ? 'Not before' : 'Since'} ${localWords(from, reading)}${until === null ? '' : `, by ${localWords(until, reading)} at the latest`}.`,
    isOpen: from <= clock,
    action: form.action,
    keys: keys(),
    carried: [
      ...form.carried,
      { name: 'position', value: String(stage.position) },
      { name: 'way', value: stage.way ?? '' },
    ],
    batches: form.batches,
  };
}

const placeWords: Readonly<Record<RecipeStage['place'], string>> = {
  crock: 'in the crock or a bowl',
  refrigerator: 'in the refrigerator',
  counter: 'on the counter',
  freezer: 'in the freezer',
  pot: 'in the pot',
  jar: 'in the jar',
  none: '',
};

/** `21 to 28 days in the crock or a bowl` */
export const waitWords = (stage: RecipeStage): string => {
  const { leastHours, mostHours } = stage;
  const least = hoursWords(leastHours, stage);
  const long =
    mostHours === null
      ? leastHours === 0
        ? 'as long as it keeps'
        : `${least} or longer`
      : mostHours === leastHours
        ? least
        : leastHours === 0
          ? `up to ${hoursWords(mostHours, stage)}`
          : hoursBetweenWords(leastHours, mostHours, stage);
  return [long, placeWords[stage.place]].filter((words) => words !== '').join(' ');
};
