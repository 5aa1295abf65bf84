import { counted } from '../../../shared/counting.ts';
import { namesAsTyped } from '../../../shared/hands.ts';
import type { BatchResult } from '../../../src/household/batch-result.ts';
import type { SessionSetting } from '../../../src/household/session.ts';
import { batchesBegunOn } from '../../../src/preserving/day/begun-batches.ts';
import type { LoadsOfDay } from '../../../src/preserving/day/loads-of-day.ts';
import type { SessionHere, SessionKitchen } from '../../../src/preserving/day/session-here.ts';
import type { DaySettingProps } from '../../../views/pages/canning-day/day-setting.tsx';
import type { DayWorkProps } from '../../../views/pages/canning-day/day-work.tsx';
import { type FieldProblems, type FormKeys, noProblems } from '../../../views/parts/form.tsx';

/** The fields of the form that lays a day out. */
export const settingFields = ['by', 'time', 'people', 'who', 'burners'] as const;

/** A setting as its form shows it. */
export const settingValues = ({
  by,
  time,
  people,
  who = [],
  burners,
}: SessionSetting): DaySettingProps['values'] => ({
  by,
  time,
  people: String(people),
  who: namesAsTyped(who),
  burners: String(burners),
});

const rowsOf = ({ rows }: SessionSetting): DaySettingProps['rows'] =>
  Object.entries(rows).map(([recipe, row]) => ({ name: `row-${recipe}`, value: row }));

/** Every field of a setting, to be sent along by a form that changes only one thing of it. */
export const settingFieldsOf = (
  setting: SessionSetting,
): readonly { readonly name: string; readonly value: string }[] => [
  ...Object.entries(settingValues(setting)).map(([name, value]) => ({ name, value })),
  ...rowsOf(setting),
];

/** A form that was sent back. */
export interface FormSentBack {
  readonly values: Readonly<Record<string, string>>;
  readonly problems: FieldProblems;
}

export const presentSetting = (
  { setting }: SessionHere,
  action: string,
  isAhead: boolean,
  keys: FormKeys,
  sentBack: FormSentBack | undefined,
): DaySettingProps => ({
  action,
  keys,
  isAhead,
  values: { ...settingValues(setting), ...sentBack?.values },
  problems: sentBack?.problems ?? noProblems,
  rows: rowsOf(setting),
});

/** What is made on the day, with what of it is begun and stays. */
export function presentWork(
  { batches }: SessionHere,
  { recipes, items }: Pick<SessionKitchen, 'recipes' | 'items'>,
  happened: { readonly loads: LoadsOfDay; readonly results: readonly BatchResult[] },
  action: string,
  keys: FormKeys,
  sentBack: FormSentBack | undefined,
): DayWorkProps {
  const onDay = new Set(batches.map(({ recipe }) => recipe.id));
  const others = recipes
    .filter(({ id }) => !onDay.has(id))
    .flatMap((recipe) => {
      const item = items.find(({ id }) => id === recipe.itemId);
      return item === undefined ? [] : [{ value: recipe.id, words: workName(item.name, recipe.name) }];
    })
    .toSorted((one, other) => one.words.localeCompare(other.words, 'en'));
  return {
    action,
    keys,
    batches: batches.map(({ recipe, item, batches: count }) => {
      const begun = batchesBegunOn(recipe.id, happened.loads, happened.results);
      const name = `batches-${recipe.id}`;
      return {
        name,
        label: item.name,
        value: sentBack?.values[name] ?? String(count),
        begun:
          begun === 0 ? null : `${counted(begun, 'is begun and stays', 'are begun and stay')} on the day.`,
      };
    }),
    others: [{ value: '', words: 'nothing else' }, ...others],
    values: {
      added: sentBack?.values.added ?? '',
      addedBatches: sentBack?.values.addedBatches ?? '1',
    },
    problems: sentBack?.problems ?? noProblems,
  };
}

const workName = (item: string, recipe: string): string => (item === recipe ? item : `${item} (${recipe})`);
