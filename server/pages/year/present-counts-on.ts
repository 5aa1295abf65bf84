import { type JarKind, mouthOf } from '../../../shared/jar.ts';
import { gaugeChecksAhead } from '../../../src/planning/days/gauge-checks.ts';
import { uncountedVessels } from '../../../src/planning/year/vessels.ts';
import type { YearPageProps } from '../../../views/pages/year/year-page.tsx';
import { formatDate, formatJarKind, formatMoney, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed } from '../../../views/words/sentences.ts';
import type { YearPicture } from '../../year/year-picture.ts';

/**
 * What the plan takes as given that nobody has written down yet: the yearly check of a dial gauge before the days that need
 * it, and that there are none of the jars and lids nobody counted.
 */
export const presentCountsOn = (picture: YearPicture, reading: Reading): YearPageProps['countsOn'] => [
  ...gaugeChecks(picture, reading),
  ...vesselsNobodyCounted(picture, reading),
];

function vesselsNobodyCounted(
  { loaded: { facts, year } }: YearPicture,
  reading: Reading,
): YearPageProps['countsOn'] {
  const { jars, lids } = uncountedVessels(year, facts);
  const step = { words: 'Say how many there are', href: '/kitchen#jars' };
  const filledBy = (kinds: (kind: JarKind) => boolean) =>
    listed([
      ...new Set(
        year.recipes.flatMap(({ name, jarKind }) => (jarKind !== null && kinds(jarKind) ? [name] : [])),
      ),
    ]);
  return [
    ...jars.map(({ kind, pack, packPrice }) => ({
      key: `jars-${kind.replace('/', '-')}`,
      words: `Nobody counted the jars for ${filledBy((other) => other === kind)} (${formatJarKind(kind)}). This plan takes it that there are none, and that new ones cost ${formatMoney(packPrice, reading)} for ${formatNumber(pack, reading)}.`,
      step,
    })),
    ...lids.map(({ mouth, box, boxPrice }) => ({
      key: `lids-${mouth}`,
      words: `Nobody counted the new lids for ${filledBy((kind) => mouthOf(kind) === mouth)} (${mouth} mouth). This plan takes it that there are none, and that a box of ${formatNumber(box, reading)} costs ${formatMoney(boxPrice, reading)}.`,
      step,
    })),
  ];
}

const gaugeChecks = ({ loaded, plan, asOf }: YearPicture, reading: Reading): YearPageProps['countsOn'] => {
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
