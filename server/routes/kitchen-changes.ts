import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { type Outcome, refused } from '../../shared/problems.ts';
import {
  choiceField,
  dateField,
  numberField,
  optionalNumberField,
  readForm,
  typedValues,
} from '../../shared/schemas/form-fields.ts';
import { keptForm } from '../../shared/schemas/kept.ts';
import {
  altitudeForm,
  cannerForm,
  daysOffForm,
  householdForm,
  jarHoldingForm,
  kitchenTimeForm,
  lidForm,
  seasonFundForm,
  weekTimeForm,
} from '../../shared/schemas/kitchen.ts';
import { weekOf } from '../../shared/week.ts';
import { feetPerMetre } from '../presenters/kitchen.ts';
import { keepDecision } from '../records/keep-decision.ts';
import {
  addDaysOff,
  clearWeekTime,
  removeDaysOff,
  retireCanner,
  saveCanner,
  saveHousehold,
  setAltitude,
  setJarHolding,
  setKitchenTime,
  setLids,
  setSeasonFund,
  setWeekTime,
} from '../records/kitchen.ts';
import type { Recording } from '../records/record.ts';
import { recordingOf } from './posting.ts';

/** One form of the kitchen page: where it is sent, where it stands, and what it writes. */
export interface KitchenChange {
  readonly path: string;
  /** Name of the form, which keeps what was typed when it is sent back. */
  readonly form: (params: Readonly<Record<string, string>>) => string;
  /** Part of the page it stands in. */
  readonly part: string;
  readonly fields: readonly string[];
  readonly renamed?: Readonly<Record<string, string>>;
  readonly write: (
    request: FastifyRequest,
    params: Readonly<Record<string, string>>,
  ) => Promise<Outcome<unknown>>;
}

/** Reads the form by its schema and hands the values to the record. */
const reading =
  <Schema extends z.ZodType>(
    schema: Schema,
    write: (recording: Recording, value: z.output<Schema>) => Promise<Outcome<unknown>>,
    extra: (request: FastifyRequest, params: Readonly<Record<string, string>>) => object = () => ({}),
  ): KitchenChange['write'] =>
  async (request, params) => {
    const asked = readForm(schema, { ...typedValues(request.body), ...extra(request, params) });
    return asked.ok ? write(recordingOf(request), asked.value) : asked;
  };

const named = (form: string) => () => form;
const cannerFields = ['name', 'method', 'gauge', 'gaugeCheckedOn', 'quartJars', 'pintJars', 'halfPintJars'];

const altitudeAsTyped = z
  .object({
    unit: choiceField('Feet or metres', ['ft', 'm'], (unit) => (unit === 'ft' ? 'feet' : 'metres')),
    altitude: numberField({ label: 'Altitude', from: -1500, to: 20_000, example: '1240' }),
  })
  .transform(({ unit, altitude }) => (unit === 'm' ? altitude * feetPerMetre : altitude));

const householdAsTyped = householdForm.pick({ name: true, people: true, units: true, weekStartsOn: true });
const storageAsTyped = householdForm.pick({ discardCeilingMonths: true }).extend({
  temperature: optionalNumberField({ label: 'Temperature', from: -40, to: 140, example: '61' }),
  temperatureUnit: choiceField('°F or °C', ['F', 'C'], (unit) => `°${unit}`),
});
const dayInWeek = z.object({ dayInWeek: dateField('Any day of the week') });

export const kitchenChanges: readonly KitchenChange[] = [
  {
    path: '/kitchen/household',
    form: named('household'),
    part: 'household',
    fields: ['name', 'people', 'units', 'weekStartsOn'],
    write: async (request) => {
      const asked = readForm(householdAsTyped, request.body);
      if (!asked.ok) return asked;
      const { storageTemperatureF, discardCeilingMonths } = request.household;
      return saveHousehold(recordingOf(request), {
        ...asked.value,
        storageTemperatureF,
        discardCeilingMonths,
      });
    },
  },
  {
    path: '/kitchen/storage',
    form: named('storage'),
    part: 'storage',
    fields: ['temperature', 'temperatureUnit', 'discardCeilingMonths'],
    renamed: { storageTemperatureF: 'temperature' },
    write: async (request) => {
      const asked = readForm(storageAsTyped, request.body);
      if (!asked.ok) return asked;
      const { temperature, temperatureUnit, discardCeilingMonths } = asked.value;
      const fahrenheit =
        temperature === null || temperatureUnit === 'F' ? temperature : (temperature * 9) / 5 + 32;
      const { name, people, units, weekStartsOn } = request.household;
      return saveHousehold(recordingOf(request), {
        name,
        people,
        units,
        weekStartsOn,
        storageTemperatureF: fahrenheit,
        discardCeilingMonths,
      });
    },
  },
  {
    path: '/kitchen/altitude',
    form: named('altitude'),
    part: 'altitude',
    fields: ['altitude', 'unit'],
    renamed: { altitudeFt: 'altitude' },
    write: async (request) => {
      const typed = readForm(altitudeAsTyped, request.body);
      if (!typed.ok) return typed;
      const asked = readForm(altitudeForm, { altitudeFt: String(Math.round(typed.value * 1e6) / 1e6) });
      return asked.ok ? setAltitude(recordingOf(request), asked.value) : asked;
    },
  },
  {
    path: '/kitchen/canners',
    form: named('canner-new'),
    part: 'canners',
    fields: cannerFields,
    write: reading(cannerForm, saveCanner, () => ({ cannerId: '' })),
  },
  {
    path: '/kitchen/canners/:canner',
    form: ({ canner }) => `canner-${canner}`,
    part: 'canners',
    fields: cannerFields,
    write: reading(cannerForm, saveCanner, (_request, { canner }) => ({ cannerId: canner })),
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
    fields: ['sessionsPerWeek', 'hoursPerSession', 'setUpMinutes', 'sessionWeekday'],
    write: reading(kitchenTimeForm, setKitchenTime),
  },
  {
    path: '/kitchen/weeks',
    form: named('weeks'),
    part: 'time',
    fields: ['dayInWeek', 'sessions', 'hoursPerSession', 'reason'],
    renamed: { week: 'dayInWeek' },
    write: inWeekOfDay(weekTimeForm, setWeekTime),
  },
  {
    path: '/kitchen/weeks/:week/removal',
    form: named('weeks'),
    part: 'time',
    fields: [],
    write: async (request, { week }) => clearWeekTime(recordingOf(request), week ?? ''),
  },
  ...(['away', 'school-holidays'] as const).flatMap((kind): KitchenChange[] => {
    const table = kind === 'away' ? 'away' : 'school_holiday';
    return [
      {
        path: `/kitchen/${kind}`,
        form: named(kind),
        part: 'time',
        fields: ['fromOn', 'lastOn'],
        write: reading(daysOffForm, (recording, span) => addDaysOff(recording, table, span)),
      },
      {
        path: `/kitchen/${kind}/:from/removal`,
        form: named(kind),
        part: 'time',
        fields: [],
        write: async (request, { from }) => {
          const day = readForm(z.object({ from: dateField('First day') }), { from });
          return day.ok ? removeDaysOff(recordingOf(request), table, day.value.from) : day;
        },
      },
    ];
  }),
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
    fields: ['jarKind', 'owned', 'empty', 'pack', 'price'],
    write: reading(jarHoldingForm, setJarHolding),
  },
  {
    path: '/kitchen/lids',
    form: named('lids'),
    part: 'jars',
    fields: ['mouth', 'onHand', 'box', 'boxPrice'],
    write: reading(lidForm, setLids),
  },
  {
    path: '/kitchen/pins',
    form: named('pins'),
    part: 'pins',
    fields: ['recipeId', 'dayInWeek', 'decision', 'batches'],
    renamed: { week: 'dayInWeek' },
    write: inWeekOfDay(keptForm, keepDecision),
  },
  {
    path: '/kitchen/pins/:recipe/:week/removal',
    form: named('pins'),
    part: 'pins',
    fields: [],
    write: reading(keptForm, keepDecision, (_request, { recipe, week }) => ({
      recipeId: recipe,
      week,
      decision: 'free',
      batches: '',
    })),
  },
];

/** A person names a week by any day in it. */
function inWeekOfDay<Schema extends z.ZodType>(
  schema: Schema,
  write: (recording: Recording, value: z.output<Schema>) => Promise<Outcome<unknown>>,
): KitchenChange['write'] {
  return async (request) => {
    const day = readForm(dayInWeek, request.body);
    const placeholder = weekOf(request.today);
    const week = day.ok ? weekOf(day.value.dayInWeek) : placeholder;
    const asked = readForm(schema, { ...typedValues(request.body), week });
    if (!day.ok) return asked.ok ? day : refused(...day.problems, ...asked.problems);
    return asked.ok ? write(recordingOf(request), asked.value) : asked;
  };
}
