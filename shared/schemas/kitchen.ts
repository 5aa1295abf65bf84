import { z } from 'zod';
import { bounds, letters, moneyBounds } from '../bounds.ts';
import { firstCurrency, isCurrency } from '../currency.ts';
import { cannerId, placeId } from '../ids.ts';
import { jarKind, mouth } from '../jar.ts';
import { fahrenheitFrom, litresPerQuart } from '../measures.ts';
import { weekKey } from '../week.ts';
import { whoIsThere } from './canning-session.ts';
import {
  choiceField,
  dateField,
  moneyField,
  numberField,
  optionalDateField,
  optionalNumberField,
  optionalTextField,
  textField,
  tickField,
  toldBeside,
} from './form-fields.ts';
import { idField, optionalIdField } from './id-fields.ts';

const hours = { label: 'Hours each', ...bounds.hoursPerSession, unit: 'hours', example: '5' };
const sessions = (label: string) => numberField({ label, ...bounds.sessionsPerWeek, example: '1' });

export const canningMethods = ['boiling-water', 'steam', 'pressure'] as const;
export const gaugeTypes = ['dial', 'weighted'] as const;

/** Psi the dial read too high, below 0 too low. */
const gaugeOff = (label: string) =>
  optionalNumberField({ label, ...bounds.gaugeOffPsi, unit: 'psi', example: '0' });

/** What a check of a dial gauge found. */
export const gaugeOffFields = {
  gaugeOffAt5: gaugeOff('At 5 psi'),
  gaugeOffAt10: gaugeOff('At 10 psi'),
  gaugeOffAt15: gaugeOff('At 15 psi'),
} as const;

/** A canner; without an id a new one is added. */
export const cannerForm = z
  .object({
    cannerId: optionalIdField('Canner', cannerId),
    name: textField('Name', letters.shortName),
    method: choiceField('kind of canner', canningMethods),
    gauge: choiceField('gauge', [...gaugeTypes, ''] as const),
    gaugeCheckedOn: optionalDateField('Dial gauge last checked'),
    ...gaugeOffFields,
    volumeQuarts: optionalNumberField({
      label: 'Quarts of water it holds',
      ...bounds.cannerVolumeQuarts,
      unit: 'quarts',
      example: '16',
    }),
    quartJars: numberField({ label: 'Quarts a load', ...bounds.quartsInLoad, example: '7' }),
    pintJars: numberField({ label: 'Pints a load', ...bounds.pintsInLoad, example: '9' }),
    halfPintJars: numberField({
      label: 'Half-pints a load',
      ...bounds.halfPintsInLoad,
      example: '12',
    }),
  })
  .refine(
    (canner) => canner.method !== 'pressure' || canner.gauge !== '',
    toldBeside<CannerTyped>(
      'gauge',
      ['method', 'gauge'],
      'Choose the kind of gauge: pressures differ between dial and weighted gauges. Look at the lid.',
    ),
  )
  .refine(
    (canner) => canner.method === 'pressure' || canner.gauge === '',
    toldBeside<CannerTyped>(
      'gauge',
      ['method', 'gauge'],
      'A canner without pressure has no gauge. Choose none, or choose a pressure canner.',
    ),
  )
  .refine(
    (canner) => canner.quartJars + canner.pintJars + canner.halfPintJars > 0,
    toldBeside<CannerTyped>(
      'quartJars',
      ['quartJars', 'pintJars', 'halfPintJars'],
      'No jar fits, by these numbers. Fill in what one load holds.',
    ),
  )
  .transform((canner) => ({ ...canner, gauge: canner.gauge === '' ? null : canner.gauge }));
type CannerTyped = Readonly<Record<'method' | 'gauge' | 'quartJars' | 'pintJars' | 'halfPintJars', unknown>>;
export type CannerRequest = Readonly<z.output<typeof cannerForm>>;

export const kitchenTimeForm = z.object({
  sessionsPerWeek: sessions('Canning days a week'),
  hoursPerSession: numberField(hours),
  setUpMinutes: numberField({
    label: 'Of these, setting up and washing up',
    ...bounds.setUpMinutes,
    unit: 'minutes',
    example: '45',
  }),
  stoveBurners: numberField({ label: 'Burners on the stove', ...bounds.stoveBurners, example: '4' }),
  sessionWeekday: numberField({
    label: 'Usually on',
    choose: 'day',
    ...bounds.weekday,
    example: '6',
  }),
  who: whoIsThere,
});
export type KitchenTimeRequest = Readonly<z.output<typeof kitchenTimeForm>>;

/** A week that differs from the usual. */
export const weekTimeForm = z.object({
  week: idField('Week', weekKey),
  sessions: sessions('Canning days'),
  hoursPerSession: optionalNumberField(hours),
  reason: optionalTextField('Why', letters.note),
});
export type WeekTimeRequest = Readonly<z.output<typeof weekTimeForm>>;

/** Days on which sessions are held: `Saturdays, 5 hours`, `the second Saturday of the month`. */
export const sessionRuleForm = z.object({
  weekday: numberField({ label: 'Day', choose: 'day', ...bounds.weekday, example: '6' }),
  which: choiceField('rhythm', ['every', 'first', 'second', 'third', 'fourth', 'last'] as const),
  hours: numberField({ ...hours, label: 'Hours' }),
  who: whoIsThere,
});
export type SessionRuleRequest = Readonly<z.output<typeof sessionRuleForm>>;

/** Days without sessions, though somebody is at home; the form names the last day. */
export const sessionPauseForm = z.object({
  fromOn: dateField('First day'),
  lastOn: dateField('Last day'),
  eachYear: tickField(),
});
export type SessionPauseRequest = Readonly<z.output<typeof sessionPauseForm>>;

/** Days away or without school; the form names the last day. */
export const daysOffForm = z.object({
  fromOn: dateField('First day'),
  lastOn: dateField('Last day'),
});
export type DaysOffRequest = Readonly<z.output<typeof daysOffForm>>;

export const seasonFundForm = z.object({
  balance: moneyField({ label: 'In the fund today', ...moneyBounds.fund }),
  weekly: moneyField({ label: 'Set aside', ...moneyBounds.weeklyFund }),
});
export type SeasonFundRequest = Readonly<z.output<typeof seasonFundForm>>;

export const jarHoldingForm = z.object({
  jarKind: idField('Jar', jarKind),
  empty: numberField({ label: 'Empty now', ...bounds.jars, example: '12' }),
  price: moneyField({ label: 'Price of a pack', ...moneyBounds.jarPack }),
  pack: numberField({ label: 'New ones come in packs of', ...bounds.jarsInPack, example: '12' }),
});
export type JarHoldingRequest = Readonly<z.output<typeof jarHoldingForm>>;

const jarChanges = ['came-back', 'broke', 'given', 'bought'] as const;
/** What became of empty jars, or of those that were away. */

export const jarChangeForm = z.object({
  jarKind: idField('Jar', jarKind),
  change: choiceField('change', jarChanges),
  jars: numberField({ label: 'How many jars', ...bounds.jars, example: '3' }),
});
export type JarChangeRequest = Readonly<z.output<typeof jarChangeForm>>;

export const lidForm = z.object({
  mouth: idField('Mouth', mouth),
  onHand: numberField({ label: 'New lids on hand', ...bounds.lids, example: '24' }),
  box: numberField({ label: 'They come in boxes of', ...bounds.lidsInBox, example: '12' }),
  boxPrice: moneyField({ label: 'Price of a box', ...moneyBounds.lidBox }),
});
export type LidRequest = Readonly<z.output<typeof lidForm>>;

/** How dates, times and numbers are written; the words of the pages stay English. */
export const locales = ['en-US', 'en-GB'] as const;

/** True for a name of the time zone database, `America/Chicago`. */
export const isTimeZone = (zone: string): boolean => {
  try {
    return Intl.DateTimeFormat('en', { timeZone: zone }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
};

/** The money of a household, by its ISO 4217 code. */
export const currencyField = optionalTextField('Currency', 3).refine(isCurrency, {
  message: 'Choose a currency, by its code of three letters; its smallest coin is a hundredth or more.',
});

export const householdForm = z.object({
  name: textField('Name of the household', letters.name),
  people: numberField({ label: 'People at the table', ...bounds.people, example: '4' }),
  units: choiceField('unit', ['us', 'metric'] as const),
  weekStartsOn: choiceField('day', ['monday', 'sunday'] as const),
  locale: choiceField('way of writing dates', locales),
  currency: currencyField.prefault(firstCurrency),
  region: optionalTextField('Region', letters.region).transform((region) => (region === '' ? null : region)),
  timeZone: optionalTextField('Time zone', letters.timeZone).refine(isTimeZone, {
    error: ({ input }) =>
      input === ''
        ? 'Choose a time zone.'
        : 'Time zone cannot be that. Write a name like America/Chicago, of an area and a city.',
  }),
});
export type HouseholdRequest = Readonly<z.output<typeof householdForm>>;

/** Where things are kept: how warm it is, how long at most, and what crocks and the freezer take. */
export const storageForm = z.object({
  storageTemperatureF: optionalNumberField({
    label: 'Temperature where you keep jars',
    ...bounds.storageTemperatureF,
    unit: '°F',
    example: '65',
  }),
  discardCeilingMonths: numberField({
    label: 'Throw away at the latest after',
    ...bounds.discardCeilingMonths,
    unit: 'months',
    example: '18',
  }),
  crockQuarts: numberField({
    label: 'Crocks hold in all',
    ...bounds.crockQuarts,
    unit: 'quarts',
    example: '8',
  }),
  freezerQuartsPerDay: optionalNumberField({
    label: 'Freezer can freeze per day',
    ...bounds.freezerQuartsPerDay,
    unit: 'quarts',
    example: '6',
  }),
});
export type StorageRequest = Readonly<z.output<typeof storageForm>>;

export const placeKinds = ['shelf', 'cellar', 'freezer', 'refrigerator'] as const;

/** A place where jars stand; without an id a new one is added. */
export const placeForm = z.object({
  placeId: optionalIdField('Place', placeId),
  name: textField('Name', letters.shortName),
  kind: choiceField('kind of place', placeKinds),
  capacityQuarts: optionalNumberField({
    label: 'Room for',
    ...bounds.placeQuarts,
    unit: 'quarts',
    example: '60',
  }),
});
export type PlaceRequest = Readonly<z.output<typeof placeForm>>;

// Forms as a person fills them in, before they come to the units the record keeps.

/** Millionths: what a conversion leaves behind is no fact about the kitchen. */
const steady = (value: number): string => value.toFixed(6);

/** A height above the sea, in feet or meters. */
export const altitudeAsTyped = z.object({
  unit: choiceField('unit', ['ft', 'm']),
  altitude: optionalTextField('Altitude', 40).prefault(''),
});

const volumeUnit = choiceField('unit', ['qt', 'L']);
/** To hundredths, so that litres shown and sent back unchanged change nothing. */
const quarts = (amount: number, unit: 'qt' | 'L'): string =>
  String(Math.round((unit === 'L' ? amount / litresPerQuart : amount) * 100) / 100);
const optionalQuarts = (amount: number | null, unit: 'qt' | 'L'): string =>
  amount === null ? '' : quarts(amount, unit);

/** Where things are kept, in the units of the page; read on by `storageForm`. */
export const storageAsTyped = z
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

/** A place, its room in the unit of the page; read on by `placeForm`. */
export const placeAsTyped = z
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
