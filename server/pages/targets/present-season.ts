import { monthNames } from '../../../shared/month-names.ts';
import { monthField } from '../../../shared/schemas/season.ts';
import type { SeasonFormProps } from '../../../views/pages/targets/season-form.tsx';
import { plain } from '../../words/plain-number.ts';
import type { StateOfForm } from '../shared/answer-form.ts';
import type { TargetPicture } from './target-picture.ts';

const usual = monthNames.map(() => 1);

/** The months of an item as the household declared them, and the form to declare others. */
export function presentSeason({ item, loaded }: TargetPicture, state: StateOfForm): SeasonFormProps {
  const byMonth = loaded.facts.seasonMultipliers.get(item.id) ?? usual;
  const months = monthNames.map((name, at) => ({ field: monthField(at + 1), name }));
  const isSchoolWeeks = loaded.useByItem.get(item.id)?.declared?.per === 'school-week';
  return {
    itemId: item.id,
    said: isSchoolWeeks
      ? 'Eaten in school weeks only; the months below do not count then.'
      : seasonWords(byMonth),
    form: state(
      'season',
      Object.fromEntries(months.map(({ field }, at) => [field, plain((byMonth[at] ?? 1) * 100)])),
    ),
    months,
    mostly: state('mostly', { mostly: 'all-year', elsewhere: 'some' }),
  };
}

/** "More in December; less in July and August; none in May." */
function seasonWords(byMonth: readonly number[]): string {
  const named = (is: (multiplier: number) => boolean) =>
    listed(monthNames.filter((_, at) => is(byMonth[at] ?? 1)));
  const parts = [
    ['more in', named((multiplier) => multiplier > 1)],
    ['less in', named((multiplier) => multiplier > 0 && multiplier < 1)],
    ['none in', named((multiplier) => multiplier === 0)],
  ].filter(([, months]) => months !== '');
  if (parts.length === 0) return 'The same all year.';
  const words = parts.map(([how, months]) => `${how} ${months}`).join('; ');
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
