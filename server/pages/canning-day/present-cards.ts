import { counted } from '../../../shared/counting.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { BatchHere, SessionHere } from '../../../src/preserving/day/session-here.ts';
import { wayOf } from '../../../src/preserving/uncanned/uncanned-ways.ts';
import type { ProcessCardProps } from '../../../views/pages/canning-day/process-card.tsx';
import type { ScheduleChoiceProps } from '../../../views/pages/canning-day/schedule-choice.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatMinutes, formatNumber, formatQuantity } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { insideSentence } from '../../../views/words/sentences.ts';
import { asideWords } from '../../words/canning/jar-aside.ts';
import { presentWay } from '../../words/canning/way-words.ts';
import { presentRefusal, presentSchedule, scheduleWords } from '../../words/process-words.ts';
import { changedWords } from '../../words/recipe-changes.ts';
import { amountOf } from '../../words/shelf-units.ts';
import { settingFieldsOf } from './present-setting.ts';

export interface CardSetting {
  /** Where a choice of schedule is sent. */
  readonly action: string;
  readonly isAhead: boolean;
  readonly keys: () => FormKeys;
  /** Recipes of which a clock ran already. */
  readonly timed: ReadonlySet<string>;
  readonly reading: Reading;
  readonly reference: Pick<ReferenceTables, 'uncannedWays'>;
}

/** Each batch of the day with its one published row, the rows to choose from, or why there is none. */
export const presentCards = (here: SessionHere, setting: CardSetting): readonly ProcessCardProps[] =>
  here.batches.map((batch) => presentCard(batch, here, setting));

function presentCard(batch: BatchHere, here: SessionHere, setting: CardSetting): ProcessCardProps {
  const { item, headline, recipe, batches, canned, low, high } = batch;
  const { reading, reference } = setting;
  const way = wayOf(recipe, reference);
  const most = amountOf(item, Math.ceil(high - 1e-9), reading, recipe.jarKind);
  const comes =
    Math.floor(low) < Math.ceil(high - 1e-9) ? `${formatNumber(Math.floor(low), reading)} to ${most}` : most;
  const loads =
    canned?.ok === true
      ? [`${formatQuantity(canned.value.loads.length, 'load', reading)} in ${canned.value.canner.name}`]
      : [];
  const choice = presentChoice(batch, here, setting);
  return {
    key: recipe.id,
    item: { name: headline, family: item.family, href: `/year/${item.id}` },
    line: [formatQuantity(batches, 'batch', reading), comes, ...loads, ...changedWords(recipe)].join(', '),
    aside: canned?.ok === true ? asideWords(canned.value.jarsAside, item, reading) : null,
    schedule: canned?.ok === true ? presentSchedule(canned.value.schedule, reading) : null,
    choice,
    refusal: canned !== null && !canned.ok && choice === null ? presentRefusal(canned.problems) : null,
    notCanned: canned === null ? notCannedWords(batch) : null,
    way: canned === null && way !== undefined ? presentWay(way, reading) : null,
  };
}

function presentChoice(
  { recipe, canned, alternatives }: BatchHere,
  here: SessionHere,
  { action, isAhead, keys, timed }: CardSetting,
): ScheduleChoiceProps | null {
  if (alternatives.length === 0) return null;
  const name = `row-${recipe.id}`;
  return {
    action,
    keys: keys(),
    name,
    carried: [
      ...settingFieldsOf(here.setting).filter((field) => field.name !== name),
      { name: 'ask', value: isAhead ? 'look' : 'begin' },
    ],
    value: canned?.ok === true ? canned.value.schedule.rowKey : '',
    choices: alternatives.map((schedule) => ({ value: schedule.rowKey, words: scheduleWords(schedule) })),
    settled:
      canned?.ok === true && timed.has(recipe.id)
        ? 'Its clock has run by this schedule, one of several printed; it stays with it today.'
        : null,
  };
}

const notCannedWords = ({ recipe, batches }: BatchHere): string =>
  `Not canned: nothing to process. ${formatMinutes(recipe.handsOnMinutes * batches)} of work, before or after the canner.${
    recipe.stages.length < 2
      ? ''
      : ` ${recipe.stages.map(({ name, afterDays }) => (afterDays === 0 ? `${name} that day` : `${insideSentence(name)} ${counted(afterDays, 'day')} later`)).join('; ')}.`
  }`;
