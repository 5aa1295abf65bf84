import { monthNames } from '../../../shared/month-names.ts';
import { monthField } from '../../../shared/schemas/season.ts';
import type { SeasonFormProps } from '../../../views/pages/targets/season-form.tsx';
import { type FormKeys, noProblems } from '../../../views/parts/form.tsx';
import { plain } from '../../words/plain-number.ts';
import type { TargetPicture, TargetSentBack } from './target-picture.ts';

export const seasonFields: readonly string[] = monthNames.map((_, at) => monthField(at + 1));

const usual = monthNames.map(() => 1);

/** The months of an item as the household declared them, and the form to declare others. */
export function presentSeason(
  { item, loaded }: TargetPicture,
  keys: FormKeys,
  mostlyKeys: FormKeys,
  sentBack: TargetSentBack | null,
): SeasonFormProps {
  const byMonth = loaded.facts.seasonMultipliers.get(item.id) ?? usual;
  const own = sentBack?.form === 'season' ? sentBack : null;
  const isSchoolWeeks = loaded.useByItem.get(item.id)?.declared?.per === 'school-week';
  return {
    itemId: item.id,
    said: isSchoolWeeks
      ? 'Eaten in school weeks only; the months below do not count then.'
      : seasonWords(byMonth),
    keys,
    months: monthNames.map((name, at) => {
      const field = monthField(at + 1);
      return { field, name, percent: own?.values[field] ?? plain((byMonth[at] ?? 1) * 100) };
    }),
    problems: own?.problems ?? noProblems,
    mostlyKeys,
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
