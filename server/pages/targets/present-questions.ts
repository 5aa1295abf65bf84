import { bounds } from '../../../shared/bounds.ts';
import { monthNames } from '../../../shared/month-names.ts';
import { monthField } from '../../../shared/schemas/season.ts';
import type { SuspectedSeason } from '../../../src/consumption/suspected-season.ts';
import { monthsWords } from '../../../src/notices/notice-words.ts';
import type { UseQuestionProps } from '../../../views/pages/targets/use-question.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { formatWeek } from '../../../views/words/format.ts';
import { amountOf } from '../../words/shelf-units.ts';
import { askedWeek } from './full-week.ts';
import { type TargetPicture, useOf } from './target-picture.ts';

/** What the weeks leave open about an item, each answered with one press. */
export const presentQuestions = (
  picture: TargetPicture,
  keys: () => FormKeys,
): readonly UseQuestionProps[] => [...fullWeekQuestion(picture, keys), ...seasonQuestion(picture, keys)];

function fullWeekQuestion(picture: TargetPicture, keys: () => FormKeys): readonly UseQuestionProps[] {
  const asked = askedWeek(picture);
  if (asked === null) return [];
  const { item, reading } = picture;
  return [
    {
      label: 'A full week',
      words: `In the ${formatWeek(asked.week, reading)} you took ${amountOf(item, asked.taken, reading)}, about ${amountOf(item, asked.units, reading)} more than usual. Was this an occasion? Until you say, it is taken for one and hardly changes what is expected.`,
      forms: [
        {
          action: `/targets/${item.id}/full-week`,
          keys: keys(),
          hidden: { week: asked.week },
          buttons: [
            { name: 'answer', value: 'once', words: 'Yes, just this once' },
            { name: 'answer', value: 'every-year', words: 'Yes, every year' },
            { name: 'answer', value: 'ordinary', words: 'No, we ate more' },
          ],
        },
      ],
    },
  ];
}

function seasonQuestion(picture: TargetPicture, keys: () => FormKeys): readonly UseQuestionProps[] {
  const use = useOf(picture);
  const season = use?.forecast?.suspectedSeason ?? null;
  if (season === null) return [];
  const { item, reading } = picture;
  const percent = percentByMonth(season, use?.declaredPerWeek ?? 0);
  return [
    {
      label: 'A season',
      words: `${amountOf(item, Math.round(season.taken), reading)} of ${amountOf(item, Math.round(season.takenInAll), reading)} were eaten ${monthsWords(season.months)}. Do you eat it mostly then, every year?`,
      forms: [
        {
          action: `/targets/${item.id}/season`,
          keys: keys(),
          hidden: Object.fromEntries(percent.map((value, at) => [monthField(at + 1), String(value)])),
          buttons: [{ name: 'intent', value: 'save', words: 'Yes, every year' }],
        },
        {
          action: `/targets/${item.id}/season/all-year`,
          keys: keys(),
          hidden: {},
          buttons: [{ name: 'intent', value: 'all-year', words: 'No, all year alike' }],
        },
      ],
    },
  ];
}

/** Percent of the amount said, or of the season's own use where nobody said any, by month. */
function percentByMonth(
  { months, perWeek, perWeekElsewhere }: SuspectedSeason,
  declaredPerWeek: number,
): readonly number[] {
  const whole = declaredPerWeek > 0 ? declaredPerWeek : perWeek;
  const percentOf = (units: number): number =>
    Math.min(bounds.seasonPercent.to, Math.round((100 * units) / whole));
  return monthNames.map((_, at) => percentOf(months.includes(at + 1) ? perWeek : perWeekElsewhere));
}
