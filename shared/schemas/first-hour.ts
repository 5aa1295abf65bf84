import { z } from 'zod';
import { bounds, letters, moneyBounds } from '../bounds.ts';
import { firstCurrency } from '../currency.ts';
import {
  choiceField,
  moneyField,
  numberField,
  optionalChoiceField,
  optionalDateField,
  optionalTextField,
  readForm,
  textField,
  tickField,
} from './form-fields.ts';
import { sourceKinds } from './harvest.ts';
import { currencyField, gaugeOffFields, locales } from './kitchen.ts';

const jars = (label: string) => numberField({ label, ...bounds.jars, example: '24' });

/** How often something is eaten, in the few words a beginner chooses from; empty for not at all. */
export const oftenChoices = ['', 'year:3', 'year:6', 'month:1', 'month:2', 'week:1', 'week:2'] as const;
export type Often = (typeof oftenChoices)[number];

/** What a household is asked when it begins. Altitude and gauge have no default and may stay open. */
export const firstHourForm = z.object({
  name: textField('Name', letters.name),
  people: numberField({ label: 'People', ...bounds.people, example: '4' }),
  units: choiceField('unit', ['us', 'metric'] as const),
  weekStartsOn: choiceField('day', ['monday', 'sunday'] as const),
  locale: choiceField('way of writing dates', locales).prefault('en-US'),
  currency: currencyField.prefault(firstCurrency),
  timeZone: optionalTextField('Time zone', letters.timeZone),
  region: optionalTextField('Region', letters.region),
  town: optionalTextField('Nearest town, with its state', letters.town),
  station: optionalTextField('Weather station', 20),
  lastFrost: optionalDateField('Last frost of spring, about').prefault(''),
  firstFrost: optionalDateField('First frost of fall, about').prefault(''),
  altitude: optionalTextField('Altitude', 40),
  altitudeUnit: choiceField('unit', ['ft', 'm'] as const),
  boilingWater: tickField(),
  potSize: optionalTextField('Size of the pot', 40).prefault(''),
  pressure: tickField(),
  pressureSize: optionalTextField('Size of the pressure canner', 40).prefault(''),
  gauge: optionalChoiceField('gauge', ['dial', 'weighted'] as const),
  gaugeCheckedOn: optionalDateField('Dial last checked on'),
  ...gaugeOffFields,
  halfPints: jars('Half-pint jars'),
  pints: jars('Pint jars'),
  quarts: jars('Quart jars'),
  lids: jars('New lids'),
  sourceKind: choiceField('source', sourceKinds),
  sessionsPerWeek: numberField({ label: 'Canning days a week', ...bounds.sessionsPerWeek, example: '1' }),
  hoursPerSession: numberField({ label: 'Hours each', ...bounds.hoursPerSession, example: '5' }),
  fundNow: moneyField({ label: 'To spend now', ...moneyBounds.fund }),
  fundWeekly: moneyField({ label: 'Set aside a week', ...moneyBounds.weeklyFund }),
});

const oftenField = (name: string) => choiceField(`number of times you eat ${name}`, oftenChoices);

export interface Appetite {
  readonly amount: number;
  readonly per: 'week' | 'month' | 'year';
}

/** The appetite a choice stands for; null for none. */
export const appetiteOf = (often: Often): Appetite | null => {
  const [per, amount] = often.split(':');
  return per === 'week' || per === 'month' || per === 'year' ? { per, amount: Number(amount) } : null;
};

/** Reads one choice of how often; `name` is what is eaten. */
export const readOften = (name: string, typed: unknown) =>
  readForm(z.object({ often: oftenField(name) }), { often: typed });
