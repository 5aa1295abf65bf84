import { firstCurrency } from '../../../shared/currency.ts';
import type { Often } from '../../../shared/schemas/first-hour.ts';
import { locales } from '../../../shared/schemas/kitchen.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { readTypedAltitude } from '../../../shared/typed-altitude.ts';
import { decimalSignOf } from '../../../shared/typed-number.ts';
import { stationChoices } from '../../../src/harvest/find-ground.ts';
import type { Household } from '../../../src/household/household.ts';
import { seenAltitude } from '../../../src/preserving/lookup/altitude-echo.ts';
import type { TestedRecipe } from '../../../src/preserving/recipes/recipe-book.ts';
import { recipeFamily } from '../../../src/preserving/recipes/recipe-family.ts';
import { testedRecipes } from '../../../src/preserving/recipes/tested-recipes.ts';
import type { FirstHourPageProps } from '../../../views/pages/start/first-hour-page.tsx';
import type { LikedPreserve } from '../../../views/pages/start/liked-preserves.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { currencyChoices } from '../../../views/words/currency-choices.ts';
import { jarWord } from '../../../views/words/format.ts';
import type { CommonPreserve, FirstYear } from '../../reference/first-year.ts';
import { cannerSizeChoices } from '../../words/canning/canner-sizes.ts';
import { regionNames, timeZoneChoices } from '../../words/regions.ts';
import { type SentBack, statesFrom } from '../shared/answer-form.ts';

const oftenWords: Readonly<Record<Often, string>> = {
  '': 'not for us',
  'year:3': '3 a year',
  'year:6': '6 a year',
  'month:1': '1 a month',
  'month:2': '2 a month',
  'week:1': '1 a week',
  'week:2': '2 a week',
};

/** Name of the field of one of the short list. */
export const likedField = ({ recipeKey }: Pick<CommonPreserve, 'recipeKey'>): string => `eats-${recipeKey}`;

const usualChoice = ({ usual }: CommonPreserve): string =>
  usual === null ? '' : `${usual.per}:${usual.amount}`;

export interface FirstHourPicture {
  readonly reference: ReferenceTables;
  readonly beginning: FirstYear;
  readonly others: readonly Household[];
  /** Nobody is signed in: whoever sets the household up may become its owner. */
  readonly asksOwner: boolean;
  /** How dates are written where the browser seems to be; units and weeks go with it. */
  readonly writes: 'en-US' | 'en-GB';
}

export function presentFirstHour(
  { reference, beginning, others, asksOwner, writes }: FirstHourPicture,
  newKeys: () => FormKeys,
  sentBack: SentBack | null,
): Omit<FirstHourPageProps, 'frame'> {
  const book = testedRecipes(reference);
  const listed = beginning.preserves.flatMap((common) => {
    const recipe = book.find(({ key }) => key === common.recipeKey);
    return recipe ? [{ common, recipe }] : [];
  });
  const demo = others.find(({ isDemo }) => isDemo);
  const form = statesFrom(newKeys, sentBack)('start', {
    ...defaults(beginning, writes),
    ...Object.fromEntries(listed.map(({ common }) => [likedField(common), usualChoice(common)])),
  });
  const { values } = form;
  return {
    form,
    altitudeSeen: seenAltitude(
      reference.processTimes,
      values.altitude,
      values.altitudeUnit === 'm' ? 'm' : 'ft',
      decimalSignOf(locales.find((locale) => locale === values.locale) ?? writes),
    ),
    currencies: currencyChoices(writes),
    sizes: {
      pot: cannerSizeChoices(reference.cannerFacts, 'boiling-water'),
      pressure: cannerSizeChoices(reference.cannerFacts, 'pressure'),
    },
    regions: [{ value: '', words: 'From the town' }, ...regionNames(reference.harvestWindows)],
    stations: stationChoices(values.town, aboutFeet(values, writes), reference.freezeNormals),
    preserves: listed.map(({ common, recipe }): LikedPreserve => {
      return {
        field: likedField(common),
        name: common.name,
        family: recipeFamily(recipe),
        note: noteOf(common, recipe, reference),
      };
    }),
    timeZones: [
      { value: '', words: 'That of your region' },
      ...timeZoneChoices(...(values.timeZone === '' ? [] : [values.timeZone])),
    ],
    often: Object.entries(oftenWords).map(([value, words]) => ({ value, words })),
    asksOwner,
    others: others.filter(({ isDemo }) => !isDemo).map(({ id, name }) => ({ id, name, keys: newKeys() })),
    demo: { isThere: demo !== undefined, name: demo?.name ?? null, keys: newKeys() },
  };
}

/** The height as it was typed, to tell towns of one name apart; null where none is clear. */
function aboutFeet(
  { altitude, altitudeUnit }: FirstHourPageProps['form']['values'],
  writes: 'en-US' | 'en-GB',
): number | null {
  const read = readTypedAltitude(altitude, altitudeUnit === 'm' ? 'm' : 'ft', decimalSignOf(writes));
  return read.kind === 'altitude' ? read.altitudeFt : null;
}

/** Units, weeks and dates begin as the reader's browser suggests; everything can be changed. */
function defaults(
  { jars }: FirstYear,
  writes: FirstHourPicture['writes'],
): FirstHourPageProps['form']['values'] {
  const onHand = (size: string) => String(jars.find(({ kind }) => kind.startsWith(`${size}/`))?.onHand ?? 0);
  return {
    name: 'Our household',
    people: '3',
    units: writes === 'en-US' ? 'us' : 'metric',
    weekStartsOn: writes === 'en-US' ? 'sunday' : 'monday',
    timeZone: '',
    locale: writes,
    currency: firstCurrency,
    region: '',
    town: '',
    station: '',
    lastFrost: '',
    firstFrost: '',
    altitude: '',
    altitudeUnit: writes === 'en-US' ? 'ft' : 'm',
    boilingWater: true,
    potSize: 'pot',
    pressure: false,
    pressureSize: 'pressure',
    gauge: '',
    gaugeCheckedOn: '',
    gaugeOffAt5: '',
    gaugeOffAt10: '',
    gaugeOffAt15: '',
    halfPints: onHand('half-pint'),
    pints: onHand('pint'),
    quarts: onHand('quart'),
    lids: '72',
    sourceKind: 'market',
    sessionsPerWeek: '1',
    hoursPerSession: '5',
    fundNow: '150',
    fundWeekly: '20',
    owner: '',
    passphrase: '',
    eats: '',
  };
}

/** "pints; needs the pressure canner" */
function noteOf(
  { jarKind }: CommonPreserve,
  recipe: TestedRecipe,
  { processTimes }: ReferenceTables,
): string {
  const size = jarWord(jarKind).many;
  const foods = new Set(recipe.processes.map(({ foodKey }) => foodKey));
  const rows = processTimes.filter(({ foodKey }) => foods.has(foodKey));
  return rows.some(({ method }) => method === 'boiling-water') ? size : `${size}; pressure canner only`;
}
