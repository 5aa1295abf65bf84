import { gaugeChecksAhead } from '../../../src/planning/days/gauge-checks.ts';
import type { YearPageProps } from '../../../views/pages/year/year-page.tsx';
import { formatDate } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed } from '../../../views/words/sentences.ts';
import type { YearPicture } from '../../year/year-picture.ts';

/** What the plan takes as done that nobody has written down yet: the yearly check of a dial gauge before the days that need it. */
export const presentCountsOn = (
  { loaded, plan, asOf }: YearPicture,
  reading: Reading,
): YearPageProps['countsOn'] => {
  const { canners, hours, household, recipes } = loaded.facts;
  const kitchen = { canners, hours, weekStartsOn: household.weekStartsOn };
  return gaugeChecksAhead(kitchen, plan?.plan ?? null, asOf).flatMap(({ canner, countsUntil, neededFor }) =>
    neededFor === null
      ? []
      : [
          {
            key: canner.id,
            words: `The check of the dial gauge of ${canner.name} counts until ${formatDate(countsUntil, reading)}. This plan counts on the next one before ${formatDate(neededFor.on, reading)}, for ${listed(neededFor.recipes.map((id) => recipes.find((one) => one.id === id)?.name ?? id))}. Until it is recorded, that canning day gives no time.`,
            step: { words: 'Record the check', href: '/kitchen#canners' },
          },
        ],
  );
};
