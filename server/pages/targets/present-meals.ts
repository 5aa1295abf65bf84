import { counted } from '../../../shared/counting.ts';
import type { ItemId } from '../../../shared/ids.ts';
import { mealKinds } from '../../../shared/meal-kinds.ts';
import { type ServingsOfKind, servingsAWeek } from '../../../src/consumption/servings-a-week.ts';
import type { MealsProps } from '../../../views/pages/targets/meals-part.tsx';
import { formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed, sentenceCase } from '../../../views/words/sentences.ts';
import { plain } from '../../words/plain-number.ts';
import { countsAsWords } from '../../words/year/meal-words.ts';
import type { YearPicture } from '../../year/year-picture.ts';
import type { StateOfForm } from '../shared/answer-form.ts';

/** Most items a row names. */
const mostNamed = 3;

/** Servings for each person and week over the year ahead, kind by kind, beside what the household wants. */
export function presentMeals(
  picture: Pick<YearPicture, 'loaded' | 'items' | 'plan'>,
  reading: Reading,
  state: StateOfForm,
): MealsProps {
  const { household } = picture.loaded.facts;
  const wanted = household.servingsWanted;
  const items = picture.items.map(({ item }) => item).filter(({ retiredOn }) => retiredOn === null);
  const kinds = servingsAWeek(items, unitsAWeek(picture), household.people);
  const uncounted = kinds.flatMap((kind) => kind.uncounted.map(({ name }) => name));
  return {
    line: `Servings for each person and week, ${picture.plan === null ? 'if you eat as expected and nothing runs out' : 'as the plan has you eat through the year'} (${counted(household.people, 'person', 'people')}).`,
    summary: sentenceCase(
      listed(
        kinds.map(({ kind, perPerson }) => `${countsAsWords[kind]} ${formatNumber(perPerson, reading, 1)}`),
      ),
    ),
    kinds: kinds.map((kind) => kindRow(kind, wanted[kind.kind], reading)),
    uncounted:
      uncounted.length === 0
        ? null
        : `Not counted: ${listed(uncounted)}. Open each under Items and say how many servings are in one.`,
    form: state('servings', {
      fruit: typedOf(wanted.fruit),
      vegetable: typedOf(wanted.vegetable),
      protein: typedOf(wanted.protein),
      sweet: typedOf(wanted.sweet),
    }),
    labels: mealKinds.map((name) => ({ name, label: sentenceCase(countsAsWords[name]) })),
  };
}

const typedOf = (servings: number | null): string => (servings === null ? '' : plain(servings));

function kindRow(
  { kind, perPerson, from }: ServingsOfKind,
  wanted: number | null,
  reading: Reading,
): MealsProps['kinds'][number] {
  const figure = (servings: number) => formatNumber(servings, reading, 1);
  const tooFew = wanted === null ? 0 : wanted - perPerson;
  const others = from.length - mostNamed;
  return {
    kind,
    name: sentenceCase(countsAsWords[kind]),
    wanted: wanted === null ? '' : figure(wanted),
    given: figure(perPerson),
    against: wanted === null ? '' : tooFew < 0.05 ? 'enough' : `${figure(tooFew)} too few`,
    from: listed([
      ...from.slice(0, mostNamed).map(({ item, perPerson: own }) => `${item.name} ${figure(own)}`),
      ...(others > 0 ? [`${counted(others, 'other')}`] : []),
    ]),
  };
}

/** Units of each item eaten in an average week: as the newest plan has it, else as it is expected. */
function unitsAWeek({ loaded, items }: Pick<YearPicture, 'loaded' | 'items'>): ReadonlyMap<ItemId, number> {
  const mean = (byWeek: readonly number[]) =>
    byWeek.reduce((sum, units) => sum + units, 0) / Math.max(1, byWeek.length);
  return new Map(
    loaded.year.items.map(({ id, useByWeek }) => {
      const path = items.find(({ item }) => item.id === id)?.path ?? null;
      return [id, mean(path === null ? useByWeek : path.takenByWeek)];
    }),
  );
}
