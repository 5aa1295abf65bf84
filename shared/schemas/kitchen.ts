import { z } from 'zod';
import { bounds, letters, moneyBounds } from '../bounds.ts';
import { firstCurrency, isCurrency } from '../currency.ts';
import { cannerId, placeId } from '../ids.ts';
import { jarKind, mouth } from '../jar.ts';
import { weekKey } from '../week.ts';
import {
  choiceField,
  dateField,
  moneyField,
  numberField,
  optionalDateField,
  optionalNumberField,
  optionalTextField,
  textField,
} from './form-fields.ts';
import { idField, optionalIdField } from './id-fields.ts';

const hours = { label: 'Hours a session', ...bounds.hoursPerSession, unit: 'hours', example: '5' };
const sessions = { label: 'Sessions a week', ...bounds.sessionsPerWeek, example: '1' };

export const canningMethods = ['boiling-water', 'steam', 'pressure'] as const;
export const gaugeTypes = ['dial', 'weighted'] as const;

/** Psi the dial read too high, below 0 too low. */
const gaugeOff = (label: string) =>
  optionalNumberField({ label, ...bounds.gaugeOffPsi, unit: 'psi', example: '0' });

/** What a check of a dial gauge found. */
export const gaugeOffFields = {
  gaugeOffAt5: gaugeOff('Off at 5 psi'),
  gaugeOffAt10: gaugeOff('Off at 10 psi'),
  gaugeOffAt15: gaugeOff('Off at 15 psi'),
} as const;

/** A canner; without an id a new one is added. */
export const cannerForm = z
  .object({
    cannerId: optionalIdField('Canner', cannerId),
    name: textField('Name', letters.shortName),
    method: choiceField('Kind of canner', canningMethods),
    gauge: choiceField('Gauge', [...gaugeTypes, ''] as const, (choice) => (choice === '' ? 'none' : choice)),
    gaugeCheckedOn: optionalDateField('Gauge checked on'),
    ...gaugeOffFields,
    volumeQuarts: optionalNumberField({
      label: 'Volume',
      ...bounds.cannerVolumeQuarts,
      unit: 'quarts',
      example: '16',
    }),
    quartJars: numberField({ label: 'Quarts in a load', ...bounds.quartsInLoad, example: '7' }),
    pintJars: numberField({ label: 'Pints in a load', ...bounds.pintsInLoad, example: '9' }),
    halfPintJars: numberField({
      label: 'Half-pints in a load',
      ...bounds.halfPintsInLoad,
      example: '12',
    }),
  })
  .transform((canner) => ({ ...canner, gauge: canner.gauge === '' ? null : canner.gauge }))
  .refine((canner) => canner.method !== 'pressure' || canner.gauge !== null, {
    message: 'Choose the kind of gauge: pressures differ between dial and weighted gauges. Look at the lid.',
    path: ['gauge'],
  })
  .refine((canner) => canner.method === 'pressure' || canner.gauge === null, {
    message: 'A canner without pressure has no gauge. Choose none, or choose a pressure canner.',
    path: ['gauge'],
  })
  .refine((canner) => canner.quartJars + canner.pintJars + canner.halfPintJars > 0, {
    message: 'No jar fits, by these numbers. Fill in what one load holds.',
    path: ['quartJars'],
  });
export type CannerRequest = Readonly<z.output<typeof cannerForm>>;

export const kitchenTimeForm = z.object({
  sessionsPerWeek: numberField(sessions),
  hoursPerSession: numberField(hours),
  setUpMinutes: numberField({
    label: 'Setting up and clearing away',
    ...bounds.setUpMinutes,
    unit: 'minutes',
    example: '45',
  }),
  stoveBurners: numberField({ label: 'Burners on the stove', ...bounds.stoveBurners, example: '4' }),
  sessionWeekday: numberField({
    label: 'Usual day (1 Monday to 7 Sunday)',
    ...bounds.weekday,
    example: '6',
  }),
});
export type KitchenTimeRequest = Readonly<z.output<typeof kitchenTimeForm>>;

/** A week that differs from the usual. */
export const weekTimeForm = z.object({
  week: idField('Week', weekKey),
  sessions: numberField(sessions),
  hoursPerSession: optionalNumberField(hours),
  reason: optionalTextField('Reason', letters.note),
});
export type WeekTimeRequest = Readonly<z.output<typeof weekTimeForm>>;

/** Days on which sessions are held: `Saturdays, 5 hours`, `the second Saturday of the month`. */
export const sessionRuleForm = z.object({
  weekday: numberField({ label: 'Day of the week (1 Monday to 7 Sunday)', ...bounds.weekday, example: '6' }),
  which: choiceField('Which', ['every', 'first', 'second', 'third', 'fourth', 'last'] as const),
  hours: numberField(hours),
});
export type SessionRuleRequest = Readonly<z.output<typeof sessionRuleForm>>;

/** Days without sessions, though somebody is at home; the form names the last day. */
export const sessionPauseForm = z.object({
  fromOn: dateField('First day'),
  lastOn: dateField('Last day'),
  eachYear: z.enum(['yes', 'no']).catch('no'),
});
export type SessionPauseRequest = Readonly<z.output<typeof sessionPauseForm>>;

/** Days away or without school; the form names the last day. */
export const daysOffForm = z.object({
  fromOn: dateField('First day'),
  lastOn: dateField('Last day'),
});
export type DaysOffRequest = Readonly<z.output<typeof daysOffForm>>;

export const seasonFundForm = z.object({
  balance: moneyField({ label: 'In the fund now', ...moneyBounds.fund }),
  weekly: moneyField({ label: 'Set aside a week', ...moneyBounds.weeklyFund }),
});
export type SeasonFundRequest = Readonly<z.output<typeof seasonFundForm>>;

export const jarHoldingForm = z.object({
  jarKind: idField('Jar', jarKind),
  empty: numberField({ label: 'Empty now', ...bounds.jars, example: '12' }),
  price: moneyField({ label: 'Price of a pack', ...moneyBounds.jarPack }),
  pack: numberField({ label: 'Jars in a pack', ...bounds.jarsInPack, example: '12' }),
});
export type JarHoldingRequest = Readonly<z.output<typeof jarHoldingForm>>;

const jarChanges = ['came-back', 'broke', 'given', 'bought'] as const;
/** What became of empty jars, or of those that were away. */

export const jarChangeForm = z.object({
  jarKind: idField('Jar', jarKind),
  change: choiceField('What happened', jarChanges),
  jars: numberField({ label: 'How many jars', ...bounds.jars, example: '3' }),
});
export type JarChangeRequest = Readonly<z.output<typeof jarChangeForm>>;

export const lidForm = z.object({
  mouth: idField('Mouth', mouth),
  onHand: numberField({ label: 'New lids on hand', ...bounds.lids, example: '24' }),
  box: numberField({ label: 'Lids in a box', ...bounds.lidsInBox, example: '12' }),
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
export const currencyField = textField('Currency', 3).refine(isCurrency, {
  message:
    'Currency must be a code of three letters, of ISO 4217, whose smallest coin is a hundredth or more. Choose one.',
});

export const householdForm = z.object({
  name: textField('Name of the household', letters.name),
  people: numberField({ label: 'People', ...bounds.people, example: '4' }),
  units: choiceField('Units', ['us', 'metric'] as const),
  weekStartsOn: choiceField('Week starts on', ['monday', 'sunday'] as const),
  locale: choiceField('Dates', locales),
  currency: currencyField.prefault(firstCurrency),
  region: optionalTextField('Region', letters.region).transform((region) => (region === '' ? null : region)),
  timeZone: textField('Time zone', letters.timeZone).refine(isTimeZone, {
    message: 'Time zone must be a name like America/Chicago, of an area and a city. Correct it.',
  }),
});
export type HouseholdRequest = Readonly<z.output<typeof householdForm>>;

/** Where things are kept: how warm it is, how long at most, and what crocks and the freezer take. */
export const storageForm = z.object({
  storageTemperatureF: optionalNumberField({
    label: 'Pantry temperature',
    ...bounds.storageTemperatureF,
    unit: '°F',
    example: '65',
  }),
  discardCeilingMonths: numberField({
    label: 'Keep at most',
    ...bounds.discardCeilingMonths,
    unit: 'months',
    example: '18',
  }),
  crockQuarts: numberField({ label: 'Crocks', ...bounds.crockQuarts, unit: 'quarts', example: '8' }),
  freezerQuartsPerDay: optionalNumberField({
    label: 'Frozen in a day',
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
  kind: choiceField('Kind of place', placeKinds),
  capacityQuarts: optionalNumberField({
    label: 'Room',
    ...bounds.placeQuarts,
    unit: 'quarts',
    example: '60',
  }),
});
export type PlaceRequest = Readonly<z.output<typeof placeForm>>;
