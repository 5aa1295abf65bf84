import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { found, type Outcome, refused, together } from '../../../shared/problems.ts';
import { decisionForm } from '../../../shared/schemas/decision.ts';
import { dateField, fitting, readForm, typedValues } from '../../../shared/schemas/form-fields.ts';
import {
  altitudeAsTyped,
  cannerForm,
  daysOffForm,
  householdForm,
  jarChangeForm,
  jarHoldingForm,
  kitchenTimeForm,
  lidForm,
  placeAsTyped,
  placeForm,
  seasonFundForm,
  sessionPauseForm,
  sessionRuleForm,
  storageAsTyped,
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
    { path: `/kitchen/${kind}`, form: kind, part: 'time' },
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
    write: reading(unfitForm, mendUnfit),
  },
  {
    path: '/kitchen/household',
    form: named('household'),
    part: 'household',
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
    renamed: { capacityQuarts: 'capacity' },
    write: savedPlace(() => ''),
  },
  {
    path: '/kitchen/places/:place',
    form: ({ place }) => `place-${place}`,
    part: 'places',
    renamed: { capacityQuarts: 'capacity' },
    write: savedPlace(({ place }) => place ?? ''),
  },
  {
    path: '/kitchen/places/:place/removal',
    form: ({ place }) => `place-${place}`,
    part: 'places',
    write: (request, { place }) => removePlace(recordingOf(request), place ?? ''),
  },
  {
    path: '/kitchen/altitude',
    form: named('altitude'),
    part: 'altitude',
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
    write: savedCanner(() => ''),
  },
  {
    path: '/kitchen/canners/:canner',
    form: ({ canner }) => `canner-${canner}`,
    part: 'canners',
    write: savedCanner(({ canner }) => canner ?? ''),
  },
  {
    path: '/kitchen/canners/:canner/retirement',
    form: ({ canner }) => `canner-${canner}`,
    part: 'canners',
    write: (request, { canner }) => retireCanner(recordingOf(request), canner ?? ''),
  },
  {
    path: '/kitchen/time',
    form: named('time'),
    part: 'time',
    write: reading(kitchenTimeForm, setKitchenTime),
  },
  ...listChanges(
    {
      path: '/kitchen/session-days',
      form: 'session-days',
      part: 'time',
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
    },
    reading(sessionPauseForm, addSessionPause, { rules: sessionPauseRules }),
    ':pause',
    async (request, { pause }) => removeSessionPause(recordingOf(request), pause ?? ''),
  ),
  ...listChanges(
    {
      path: '/kitchen/weeks',
      form: 'week',
      part: 'time',
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
    write: reading(seasonFundForm, setSeasonFund),
  },
  {
    path: '/kitchen/jars',
    form: named('jars'),
    part: 'jars',
    write: reading(jarHoldingForm, setJarHolding),
  },
  {
    path: '/kitchen/jars/changes',
    form: named('jar-changes'),
    part: 'jars',
    write: reading(jarChangeForm, changeJars, { rules: jarChangeRules }),
  },
  {
    path: '/kitchen/lids',
    form: named('lids'),
    part: 'jars',
    write: reading(lidForm, setLids),
  },
  ...listChanges(
    {
      path: '/kitchen/pins',
      form: 'pin',
      part: 'pins',
      renamed: { week: 'dayInWeek' },
    },
    readingWeek(decisionForm, keepDecision, decisionRules),
    ':recipe/:week',
    reading(decisionForm, keepDecision, {
      extra: (_request, { recipe, week }) => ({ recipeId: recipe, week, decision: 'free', batches: '' }),
    }),
  ),
];
