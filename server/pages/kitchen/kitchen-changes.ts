import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { bounds } from '../../../shared/bounds.ts';
import { fahrenheitFrom, litresPerQuart } from '../../../shared/measures.ts';
import { found, type Outcome, refused, together } from '../../../shared/problems.ts';
import { decisionForm } from '../../../shared/schemas/decision.ts';
import {
  choiceField,
  dateField,
  fitting,
  numberField,
  optionalNumberField,
  optionalTextField,
  readForm,
  typedValues,
} from '../../../shared/schemas/form-fields.ts';
import {
  cannerForm,
  daysOffForm,
  householdForm,
  jarChangeForm,
  jarHoldingForm,
  kitchenTimeForm,
  lidForm,
  placeForm,
  seasonFundForm,
  sessionPauseForm,
  sessionRuleForm,
  storageForm,
  weekTimeForm,
} from '../../../shared/schemas/kitchen.ts';
import { unfitForm } from '../../../shared/schemas/unfit-value.ts';
import { decimalSignOf } from '../../../shared/typed-number.ts';
import { cannerSizes } from '../../../src/preserving/canner-sizes.ts';
import { confirmedAltitude } from '../../../src/preserving/lookup/altitude-echo.ts';
import { changeJars, jarChangeRules, setJarHolding } from '../../records/household/jars.ts';
import {
  addDaysOff,
  addSessionPause,
  addSessionRule,
  cannerRules,
  clearWeekTime,
  daysOffRules,
  removeDaysOff,
  removeSessionPause,
  removeSessionRule,
  retireCanner,
  saveCanner,
  saveHousehold,
  saveStorage,
  sessionPauseRules,
  sessionRuleRules,
  setAltitude,
  setKitchenTime,
  setLids,
  setSeasonFund,
  setWeekTime,
} from '../../records/household/kitchen.ts';
import { mendUnfit } from '../../records/household/mend-unfit.ts';
import { giveWaitingRecipesCanners } from '../../records/household/waiting-recipes.ts';
import { problemsIn, refuse } from '../../records/record.ts';
import { placeRules, removePlace, savePlace } from '../../records/shelf/places.ts';
import { decisionRules, keepDecision } from '../../records/year/keep-decision.ts';
import { renewSeasons } from '../../records/year/seasons.ts';
import { recordingOf, sentText } from '../shared/posting.ts';
import { readerOf } from '../shared/read-by-rules.ts';
import { type KitchenChange, listChanges, reading, readingWeek } from './kitchen-change.ts';

const named = (form: string) => () => form;
const cannerFields = [
  'name',
  'method',
  'gauge',
  'gaugeCheckedOn',
  'gaugeOffAt5',
  'gaugeOffAt10',
  'gaugeOffAt15',
  'volumeQuarts',
  'size',
  'quartJars',
  'pintJars',
  'halfPintJars',
];
const placeFields = ['name', 'kind', 'capacity'];

/** Millionths: what a conversion leaves behind is no fact about the kitchen. */
const steady = (value: number): string => value.toFixed(6);

const altitudeAsTyped = z.object({
  unit: choiceField('unit', ['ft', 'm']),
  altitude: optionalTextField('Altitude', 40).prefault(''),
});

const volumeUnit = choiceField('unit', ['qt', 'L']);
/** To hundredths, so that litres shown and sent back unchanged change nothing. */
const quarts = (amount: number, unit: 'qt' | 'L'): string =>
  String(Math.round((unit === 'L' ? amount / litresPerQuart : amount) * 100) / 100);
const optionalQuarts = (amount: number | null, unit: 'qt' | 'L'): string =>
  amount === null ? '' : quarts(amount, unit);

const storageAsTyped = z
  .object({
    temperature: optionalNumberField({
      label: 'Temperature where you keep jars',
      ...bounds.storageTemperatureF,
      example: '61',
    }),
    temperatureUnit: choiceField('unit', ['F', 'C']),
    discardCeilingMonths: z.unknown(),
    crocks: numberField({ label: 'Crocks hold in all', ...bounds.crockQuarts, example: '8' }),
    freezes: optionalNumberField({
      label: 'Freezer can freeze per day',
      ...bounds.freezerQuartsPerDay,
      example: '6',
    }),
    volumeUnit,
  })
  .transform((typed) => ({
    storageTemperatureF:
      typed.temperature === null
        ? ''
        : steady(typed.temperatureUnit === 'C' ? fahrenheitFrom(typed.temperature) : typed.temperature),
    discardCeilingMonths: typed.discardCeilingMonths,
    crockQuarts: quarts(typed.crocks, typed.volumeUnit),
    freezerQuartsPerDay: optionalQuarts(typed.freezes, typed.volumeUnit),
  }));

const placeAsTyped = z
  .object({
    name: z.unknown(),
    kind: z.unknown(),
    capacity: optionalNumberField({ label: 'Room for', ...bounds.placeQuarts, example: '60' }),
    volumeUnit,
  })
  .transform(({ name, kind, capacity, volumeUnit: unit }) => ({
    name,
    kind,
    capacityQuarts: optionalQuarts(capacity, unit),
  }));

/** What a load holds by the size that was chosen; nothing where the jars were counted. */
function sizeChosen(request: FastifyRequest): Outcome<Readonly<Record<string, string>>> {
  const [key, method] = [sentText(request, 'size'), sentText(request, 'method')];
  if (key === '') return found({});
  const size = cannerSizes(request.server.reference.cannerFacts).find((one) => one.key === key);
  if (size === undefined || size.method !== method)
    return refused({
      code: 'form.field',
      path: ['size'],
      message: `That is no size of a ${method === 'pressure' ? 'pressure canner' : 'boiling-water canner'}. Choose another, or count the jars that stand upright in it.`,
    });
  const { quarts: quartJars, pints: pintJars, halfPints: halfPintJars } = size.holds;
  return found({
    quartJars: String(quartJars),
    pintJars: String(pintJars),
    halfPintJars: String(halfPintJars),
  });
}

/** A canner that is there now may be the one that recipes were waiting for. */
const savedCanner =
  (own: (params: Readonly<Record<string, string>>) => string): KitchenChange['write'] =>
  async (request, params) => {
    const size = sizeChosen(request);
    const extra = () => ({ cannerId: own(params), ...(size.ok ? size.value : {}) });
    if (!size.ok) {
      const typed = { ...typedValues(request.body), ...extra() };
      const wrong = await cannerRules(readerOf(request), fitting(cannerForm, typed));
      return refused(...size.problems, ...problemsIn(readForm(cannerForm, typed)), ...wrong);
    }
    const saved = await reading(cannerForm, saveCanner, { extra, rules: cannerRules })(request, params);
    if (!saved.ok) return saved;
    const recording = recordingOf(request);
    const given = await giveWaitingRecipesCanners(
      { ...recording, key: `${recording.key} recipes` },
      request.server.reference,
    );
    return given.ok ? saved : given;
  };

/** Reads a form in the units it was typed in, then what that comes to as the record wants it. */
function readConverted<Typed extends z.ZodType<object>, Wanted extends z.ZodType>(
  asTyped: Typed,
  wanted: Wanted,
  body: unknown,
  own: object = {},
): Outcome<z.output<Wanted>> {
  const typed = readForm(asTyped, body);
  if (typed.ok) return readForm(wanted, { ...typed.value, ...own });
  // What goes to the record as it was typed is told along with the rest.
  const rest = readForm(wanted, { ...typedValues(body), ...own });
  const untouched = rest.ok ? [] : rest.problems.filter(({ path }) => String(path[0]) in typedValues(body));
  return refused(...typed.problems, ...untouched);
}

const savedPlace =
  (own: (params: Readonly<Record<string, string>>) => string): KitchenChange['write'] =>
  async (request, params) => {
    const placed = { placeId: own(params) };
    const asked = readConverted(placeAsTyped, placeForm, request.body, placed);
    if (asked.ok) return savePlace(recordingOf(request), asked.value);
    const legible = fitting(placeForm, { ...typedValues(request.body), ...placed });
    return refused(...asked.problems, ...(await placeRules(readerOf(request), legible)));
  };

const daysOffChanges = (kind: 'away' | 'school-holidays'): readonly KitchenChange[] => {
  const table = kind === 'away' ? 'away' : 'school_holiday';
  return listChanges(
    { path: `/kitchen/${kind}`, form: kind, part: 'time', fields: ['fromOn', 'lastOn'] },
    reading(daysOffForm, (recording, span) => addDaysOff(recording, table, span), {
      rules: daysOffRules(table),
    }),
    ':from',
    async (request, { from }) => {
      const day = readForm(z.object({ from: dateField('First day') }), { from });
      return day.ok ? removeDaysOff(recordingOf(request), table, day.value.from) : day;
    },
  );
};

/** Dates that were guessed from the region or the height are guessed anew. */
async function withSeasons<T>(request: FastifyRequest, outcome: Outcome<T>): Promise<Outcome<T>> {
  if (!outcome.ok) return outcome;
  const recording = recordingOf(request);
  await renewSeasons({ ...recording, key: `${recording.key} seasons` }, request.server.reference);
  return outcome;
}

export const kitchenChanges: readonly KitchenChange[] = [
  {
    path: '/kitchen/unfit-values',
    form: named('unfit'),
    part: 'unfit',
    fields: ['row'],
    write: reading(unfitForm, mendUnfit),
  },
  {
    path: '/kitchen/household',
    form: named('household'),
    part: 'household',
    fields: ['name', 'people', 'units', 'weekStartsOn', 'locale', 'currency', 'region', 'timeZone'],
    write: async (request) => {
      const asked = readForm(householdForm, request.body);
      const { region = null } = fitting(householdForm, request.body);
      const known =
        region === null || request.server.reference.harvestWindows.some((row) => row.region === region)
          ? found(region)
          : refuse(
              'region-unknown',
              'region',
              `There is no region “${region.slice(0, 40)}”. Choose one of the list, or leave it open.`,
            );
      const both = together(asked, known);
      return both.ok ? withSeasons(request, await saveHousehold(recordingOf(request), both.value[0])) : both;
    },
  },
  {
    path: '/kitchen/storage',
    form: named('storage'),
    part: 'storage',
    fields: ['temperature', 'temperatureUnit', 'discardCeilingMonths', 'crocks', 'freezes'],
    renamed: { storageTemperatureF: 'temperature', crockQuarts: 'crocks', freezerQuartsPerDay: 'freezes' },
    write: async (request) => {
      const asked = readConverted(storageAsTyped, storageForm, request.body);
      return asked.ok ? saveStorage(recordingOf(request), asked.value) : asked;
    },
  },
  {
    path: '/kitchen/places',
    form: named('place-new'),
    part: 'places',
    fields: placeFields,
    renamed: { capacityQuarts: 'capacity' },
    write: savedPlace(() => ''),
  },
  {
    path: '/kitchen/places/:place',
    form: ({ place }) => `place-${place}`,
    part: 'places',
    fields: placeFields,
    renamed: { capacityQuarts: 'capacity' },
    write: savedPlace(({ place }) => place ?? ''),
  },
  {
    path: '/kitchen/places/:place/removal',
    form: ({ place }) => `place-${place}`,
    part: 'places',
    fields: placeFields,
    write: (request, { place }) => removePlace(recordingOf(request), place ?? ''),
  },
  {
    path: '/kitchen/altitude',
    form: named('altitude'),
    part: 'altitude',
    fields: ['altitude', 'unit'],
    write: async (request) => {
      const asked = readForm(altitudeAsTyped, request.body);
      const known = confirmedAltitude(
        request.server.reference.processTimes,
        sentText(request, 'altitude'),
        asked.ok ? asked.value.unit : 'ft',
        {
          decimalSign: decimalSignOf(request.household.locale),
          mark: sentText(request, 'altitudeSeen'),
        },
      );
      if (!asked.ok) return together(asked, known);
      return known.ok
        ? withSeasons(
            request,
            await setAltitude(recordingOf(request), { altitudeFt: known.value.altitudeFt }),
          )
        : known;
    },
  },
  {
    path: '/kitchen/canners',
    form: named('canner-new'),
    part: 'canners',
    fields: cannerFields,
    write: savedCanner(() => ''),
  },
  {
    path: '/kitchen/canners/:canner',
    form: ({ canner }) => `canner-${canner}`,
    part: 'canners',
    fields: cannerFields,
    write: savedCanner(({ canner }) => canner ?? ''),
  },
  {
    path: '/kitchen/canners/:canner/retirement',
    form: ({ canner }) => `canner-${canner}`,
    part: 'canners',
    fields: [],
    write: (request, { canner }) => retireCanner(recordingOf(request), canner ?? ''),
  },
  {
    path: '/kitchen/time',
    form: named('time'),
    part: 'time',
    fields: ['sessionsPerWeek', 'hoursPerSession', 'setUpMinutes', 'stoveBurners', 'sessionWeekday', 'who'],
    write: reading(kitchenTimeForm, setKitchenTime),
  },
  ...listChanges(
    {
      path: '/kitchen/session-days',
      form: 'session-days',
      part: 'time',
      fields: ['weekday', 'which', 'hours', 'who'],
    },
    reading(sessionRuleForm, addSessionRule, { rules: sessionRuleRules }),
    ':rule',
    async (request, { rule }) => removeSessionRule(recordingOf(request), rule ?? ''),
  ),
  ...listChanges(
    {
      path: '/kitchen/session-pauses',
      form: 'session-pauses',
      part: 'time',
      fields: ['fromOn', 'lastOn', 'eachYear'],
    },
    reading(sessionPauseForm, addSessionPause, { rules: sessionPauseRules }),
    ':pause',
    async (request, { pause }) => removeSessionPause(recordingOf(request), pause ?? ''),
  ),
  ...listChanges(
    {
      path: '/kitchen/weeks',
      form: 'weeks',
      part: 'time',
      fields: ['dayInWeek', 'sessions', 'hoursPerSession', 'reason'],
      renamed: { week: 'dayInWeek' },
    },
    readingWeek(weekTimeForm, setWeekTime),
    ':week',
    async (request, { week }) => clearWeekTime(recordingOf(request), week ?? ''),
  ),
  ...daysOffChanges('away'),
  ...daysOffChanges('school-holidays'),
  {
    path: '/kitchen/fund',
    form: named('fund'),
    part: 'fund',
    fields: ['balance', 'weekly'],
    write: reading(seasonFundForm, setSeasonFund),
  },
  {
    path: '/kitchen/jars',
    form: named('jars'),
    part: 'jars',
    fields: ['jarKind', 'empty', 'pack', 'price'],
    write: reading(jarHoldingForm, setJarHolding),
  },
  {
    path: '/kitchen/jars/changes',
    form: named('jar-changes'),
    part: 'jars',
    fields: ['jarKind', 'change', 'jars'],
    write: reading(jarChangeForm, changeJars, { rules: jarChangeRules }),
  },
  {
    path: '/kitchen/lids',
    form: named('lids'),
    part: 'jars',
    fields: ['mouth', 'onHand', 'box', 'boxPrice'],
    write: reading(lidForm, setLids),
  },
  ...listChanges(
    {
      path: '/kitchen/pins',
      form: 'pins',
      part: 'pins',
      fields: ['recipeId', 'dayInWeek', 'decision', 'batches'],
      renamed: { week: 'dayInWeek' },
    },
    readingWeek(decisionForm, keepDecision, decisionRules),
    ':recipe/:week',
    reading(decisionForm, keepDecision, {
      extra: (_request, { recipe, week }) => ({ recipeId: recipe, week, decision: 'free', batches: '' }),
    }),
  ),
];
