import { celsiusFrom, feetPerMetre, litresPerQuart } from '../../../shared/measures.ts';
import { decimalSignOf } from '../../../shared/typed-number.ts';
import { weekHolding } from '../../../shared/week.ts';
import { fundIn } from '../../../src/planning/year/fund-ahead.ts';
import { altitudeEcho, seenAltitude } from '../../../src/preserving/lookup/altitude-echo.ts';
import { bestQualityOf, publishedHomeCannedDays } from '../../../src/shelf/best-quality.ts';
import type { AltitudeFormProps } from '../../../views/pages/kitchen/altitude-form.tsx';
import type { SeasonFundProps } from '../../../views/pages/kitchen/fund-form.tsx';
import type { HouseholdFormProps } from '../../../views/pages/kitchen/household-form.tsx';
import type { JarsProps } from '../../../views/pages/kitchen/jars-forms.tsx';
import type { KitchenPageProps } from '../../../views/pages/kitchen/kitchen-page.tsx';
import type { PinsProps } from '../../../views/pages/kitchen/pins-form.tsx';
import type { PlacesProps } from '../../../views/pages/kitchen/places-forms.tsx';
import type { StorageProps } from '../../../views/pages/kitchen/storage-form.tsx';
import type { FormKeys } from '../../../views/parts/form.tsx';
import { currencyChoices } from '../../../views/words/currency-choices.ts';
import {
  formatJarKind,
  formatMoney,
  formatNumber,
  formatQuantity,
  withCelsius,
} from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { jarChoices } from '../../words/jar-choices.ts';
import { plain } from '../../words/plain-number.ts';
import { regionTimeZone, timeZoneChoices } from '../../words/regions.ts';
import { type SentBack, type StateOfForm, statesFrom } from '../shared/answer-form.ts';
import type { KitchenPicture } from './kitchen-picture.ts';
import { presentCanners } from './present-canners.ts';
import { presentTime } from './present-time.ts';
import { presentUnfit } from './present-unfit-values.ts';
import { weekWithYear } from './week-with-year.ts';

export function presentKitchen(
  picture: KitchenPicture,
  newKeys: () => FormKeys,
  sentBack: SentBack | null,
): Omit<KitchenPageProps, 'frame' | 'saved'> {
  const state = statesFrom(newKeys, sentBack);
  return {
    line: testedLine(picture),
    unfit: presentUnfit(picture.unfit, picture.today, newKeys),
    unfitProblem: sentBack?.formId === 'unfit' ? (sentBack.problems[0]?.message ?? null) : null,
    untested: picture.leftOut.map(({ recipeId, name, reasons }) => ({
      id: recipeId,
      name,
      why: reasons.map((reason) => reason.message),
    })),
    household: presentHousehold(picture, state),
    altitude: presentAltitude(picture, state),
    canners: presentCanners(picture, state, newKeys),
    jars: presentJars(picture, state),
    time: presentTime(picture, state, newKeys),
    fund: presentFund(picture, state),
    storage: presentStorage(picture, state),
    places: presentPlaces(picture, state, newKeys),
    pins: presentPins(picture, state, newKeys),
  };
}

function testedLine({ recipes, leftOut, household }: KitchenPicture): string {
  const canned = recipes.filter((recipe) => recipe.process !== null).length;
  if (household.altitudeFt === null)
    return 'Enter the altitude first: until then nothing can be canned here.';
  if (canned === 0) return 'No recipe is canned yet.';
  return `${canned - leftOut.length} of ${canned} canned recipes have a tested process here.`;
}

function presentHousehold({ household, regions }: KitchenPicture, state: StateOfForm): HouseholdFormProps {
  return {
    ...state('household', {
      name: household.name,
      people: String(household.people),
      units: household.units,
      weekStartsOn: household.weekStartsOn,
      locale: household.locale,
      currency: household.currency,
      region: household.region ?? '',
      timeZone: household.timeZone,
    }),
    regions: [{ value: '', words: 'None of these' }, ...regions],
    currencies: currencyChoices(household.locale),
    timeZones: timeZoneChoices(household.timeZone, regionTimeZone(household.region) ?? household.timeZone),
  };
}

function presentAltitude({ household, processTimes }: KitchenPicture, state: StateOfForm): AltitudeFormProps {
  const { altitudeFt, units } = household;
  const metres = altitudeFt === null ? null : altitudeFt / feetPerMetre;
  const own = units === 'metric' ? metres : altitudeFt;
  const kept = { altitude: own === null ? '' : plain(own), unit: units === 'metric' ? 'm' : 'ft' };
  const form = state('altitude', kept);
  const { altitude, unit } = form.values;
  const seen = seenAltitude(
    processTimes,
    altitude,
    unit === 'm' ? 'm' : 'ft',
    decimalSignOf(household.locale),
  );
  return {
    ...form,
    seen,
    isChanged: altitude !== kept.altitude || unit !== kept.unit,
    known:
      altitudeFt === null || metres === null
        ? null
        : `${units === 'metric' ? altitudeEcho(processTimes, metres, 'm') : altitudeEcho(processTimes, altitudeFt, 'ft')}. Every processing time here is a published row for this height.`,
  };
}

function presentJars({ jars, lids, reading }: KitchenPicture, state: StateOfForm): JarsProps {
  const [firstLid] = lids;
  return {
    holdings: jars.map((jar) => ({
      kind: jar.kind,
      words: formatJarKind(jar.kind),
      owned: formatNumber(jar.owned, reading),
      full: formatNumber(jar.full, reading),
      empty: formatNumber(jar.empty, reading),
      away: formatNumber(jar.away, reading),
      price: `${formatMoney(jar.price, reading)} for ${formatNumber(jar.pack, reading)}`,
    })),
    lids: lids.map((lid) => ({
      mouth: lid.mouth,
      words: `${formatQuantity(lid.onHand, 'lid', reading)}, ${lid.mouth} mouth, new; a box of ${lid.box} costs ${formatMoney(lid.boxPrice, reading)}.`,
    })),
    jarKinds: [{ value: '', words: 'Choose a jar' }, ...jarChoices(jars.map((jar) => jar.kind))],
    holding: state('jars', { jarKind: '', empty: '', price: '', pack: '12' }),
    change: state('jar-changes', { jarKind: '', change: 'came-back', jars: '' }),
    lid: state('lids', {
      mouth: '',
      onHand: '',
      box: String(firstLid?.box ?? 12),
      boxPrice: firstLid === undefined ? '' : plain(firstLid.boxPrice / 100),
    }),
  };
}

function presentFund({ fund, today, reading }: KitchenPicture, state: StateOfForm): SeasonFundProps {
  return state('fund', {
    balance:
      fund === null
        ? ''
        : plain(fundIn(fund, weekHolding(today, reading.weekStartsOn), reading.weekStartsOn) / 100),
    weekly: fund === null ? '' : plain(fund.weekly / 100),
  });
}

function presentStorage({ household, today, reading }: KitchenPicture, state: StateOfForm): StorageProps {
  const { storageTemperatureF, units, crockQuarts, freezerQuartsPerDay } = household;
  const warmth =
    storageTemperatureF !== null && units === 'metric'
      ? celsiusFrom(storageTemperatureF)
      : storageTemperatureF;
  return {
    known:
      storageTemperatureF === null
        ? 'You have not said how warm it is, so the published keeping times count, which hold at 50 to 70 °F (10 to 21 °C).'
        : `For what is canned: ${withCelsius(
            bestQualityOf({
              putUpOn: today,
              publishedDays: publishedHomeCannedDays,
              warmthRule: 'canned',
              storageF: storageTemperatureF,
            }).because,
            reading,
          )}`,
    volume: volumeUnit(reading),
    form: state('storage', {
      temperature: warmth === null ? '' : plain(warmth),
      temperatureUnit: units === 'metric' ? 'C' : 'F',
      discardCeilingMonths: String(household.discardCeilingMonths),
      crocks: plain(inVolume(crockQuarts, reading)),
      freezes: freezerQuartsPerDay === null ? '' : plain(inVolume(freezerQuartsPerDay, reading)),
    }),
  };
}

const volumeUnit = ({ units }: Reading): 'qt' | 'L' => (units === 'metric' ? 'L' : 'qt');
const inVolume = (quarts: number, { units }: Reading): number =>
  units === 'metric' ? quarts * litresPerQuart : quarts;

function presentPlaces(
  { places, reading }: KitchenPicture,
  state: StateOfForm,
  newKeys: () => FormKeys,
): PlacesProps {
  const volume = volumeUnit(reading);
  return {
    places: places.map((place) => ({
      ...state(`place-${place.id}`, {
        name: place.name,
        kind: place.kind,
        capacity: place.capacityQuarts === null ? '' : plain(inVolume(place.capacityQuarts, reading)),
      }),
      placeId: place.id,
      title: place.name,
      state: `${place.kind}${place.capacityQuarts === null ? '' : `, holds ${formatQuantity(place.capacityQuarts, 'qt', reading)}`}`,
      volume,
      removeKeys: newKeys(),
    })),
    adding: {
      ...state('place-new', { name: '', kind: 'shelf', capacity: '' }),
      placeId: null,
      title: 'Add a place',
      state: null,
      volume,
      removeKeys: null,
    },
  };
}

function presentPins(
  { kept, recipes, reading }: KitchenPicture,
  state: StateOfForm,
  newKeys: () => FormKeys,
): PinsProps {
  const nameOf = (id: string) => recipes.find((recipe) => recipe.id === id)?.name ?? id;
  return {
    lines: kept
      .filter((decision) => decision.decision !== 'done')
      .map((decision) => ({
        id: `${decision.recipeId}-${decision.week}`,
        words:
          decision.decision === 'pinned'
            ? `${nameOf(decision.recipeId)}, ${weekWithYear(decision.week, reading)}: ${formatQuantity(decision.batches, 'batch', reading)}`
            : `${nameOf(decision.recipeId)}, ${weekWithYear(decision.week, reading)}: not that week`,
        remove: `/kitchen/pins/${decision.recipeId}/${decision.week}/removal`,
        keys: newKeys(),
      })),
    recipes: [
      { value: '', words: 'Choose a recipe' },
      ...recipes.map((recipe) => ({ value: recipe.id, words: recipe.name })),
    ],
    form: state('pin', { recipeId: '', dayInWeek: '', decision: '', batches: '' }),
  };
}
