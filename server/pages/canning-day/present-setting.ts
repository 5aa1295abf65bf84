import { counted } from '../../../shared/counting.ts';
import { namesAsTyped } from '../../../shared/hands.ts';
import type { BatchResult } from '../../../src/household/batch-result.ts';
import type { SessionSetting } from '../../../src/household/session.ts';
import { batchesBegunOn } from '../../../src/preserving/day/begun-batches.ts';
import type { LoadsOfDay } from '../../../src/preserving/day/loads-of-day.ts';
import type { SessionHere, SessionKitchen } from '../../../src/preserving/day/session-here.ts';
import type { DaySettingProps } from '../../../views/pages/canning-day/day-setting.tsx';
import type { DayWorkProps } from '../../../views/pages/canning-day/day-work.tsx';
import type { StateOfForm } from '../shared/answer-form.ts';

/** A setting as its form shows it. */
const settingValues = ({
  by,
  time,
  people,
  who = [],
  burners,
}: SessionSetting): DaySettingProps['form']['values'] => ({
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

export const presentSetting = (
  { setting }: SessionHere,
  action: string,
  isAhead: boolean,
  state: StateOfForm,
): DaySettingProps => ({
  action,
  form: state('setting', settingValues(setting)),
  isAhead,
  rows: rowsOf(setting),
});

/** What is made on the day, with what of it is begun and stays. */
export function presentWork(
  { batches }: SessionHere,
  { recipes, items }: Pick<SessionKitchen, 'recipes' | 'items'>,
  happened: { readonly loads: LoadsOfDay; readonly results: readonly BatchResult[] },
  action: string,
  state: StateOfForm,
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
    form: state('work', {
      ...Object.fromEntries(
        batches.map(({ recipe, batches: count }) => [`batches-${recipe.id}`, String(count)]),
      ),
      added: '',
      addedBatches: '1',
    }),
    batches: batches.map(({ recipe, item }) => {
      const begun = batchesBegunOn(recipe.id, happened.loads, happened.results);
      return {
        name: `batches-${recipe.id}`,
        label: item.name,
        begun:
          begun === 0 ? null : `${counted(begun, 'is begun and stays', 'are begun and stay')} on the day.`,
      };
    }),
    others: [{ value: '', words: 'nothing else' }, ...others],
  };
}

const workName = (item: string, recipe: string): string => (item === recipe ? item : `${item} (${recipe})`);
