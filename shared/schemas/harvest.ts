import { z } from 'zod';
import { bounds, letters, moneyBounds } from '../bounds.ts';
import { cropKey, sourceId } from '../ids.ts';
import {
  choiceField,
  dateField,
  moneyField,
  numberField,
  optionalDateField,
  optionalNumberField,
  textField,
} from './form-fields.ts';
import { idField, optionalIdField } from './id-fields.ts';

export const sourceKinds = ['garden', 'pick-your-own', 'market'] as const;
export const fallBacks = ['buy', 'substitute', 'do-without'] as const;

/** Where a crop comes from. Without an id a new source is added. */
export const sourceForm = z.object({
  sourceId: optionalIdField('Source', sourceId),
  name: textField('Name', letters.name),
  crop: idField('Crop', cropKey),
  kind: choiceField('kind of source', sourceKinds),
  pricePerLb: moneyField({ label: 'Price', ...moneyBounds.perLb }).prefault('0'),
  plants: optionalNumberField({ label: 'Plants', ...bounds.plants, example: '12' }),
  lbPerPlant: optionalNumberField({ label: 'A plant gives', ...bounds.lbPerPlant, example: '8' }),
  useByDays: numberField({ label: 'Keeps once picked', ...bounds.useByDays, example: '3' }).prefault('3'),
  poorYearChance: numberField({
    label: 'Chance of a poor year',
    ...bounds.share,
    example: '0.2',
  }).prefault('0'),
  poorYearShare: numberField({
    label: 'Share of the crop in a poor year',
    ...bounds.share,
    example: '0.3',
  }).prefault('0.3'),
  fallBack: choiceField('way out when the crop fails', fallBacks).prefault('buy'),
});
export type SourceRequest = Readonly<z.output<typeof sourceForm>>;

/** A source as a person fills it in, years and shares as a household says them: 2 in 10, 30 %. */
export const sourceAsTyped = sourceForm.omit({ poorYearChance: true, poorYearShare: true }).extend({
  poorYearsInTen: numberField({ label: 'Poor years', ...bounds.poorYearsInTen, example: '2' }),
  poorYearPercent: numberField({
    label: 'A poor year gives',
    ...bounds.poorYearPercent,
    unit: '%',
    example: '30',
  }),
});

/** One year's harvest of a source. The form names the last day; the window ends the day after. */
export const harvestWindowForm = z.object({
  sourceId: idField('Source', sourceId),
  beginsOn: dateField('First day'),
  lastOn: dateField('Last day'),
  mostActiveFrom: optionalDateField('Most of it from'),
  mostActiveLastOn: optionalDateField('Most of it until'),
  lbPerWeek: numberField({ label: 'Gives a week', ...bounds.lbPerWeek, unit: 'lb', example: '30' }),
});
export type HarvestWindowRequest = Readonly<z.output<typeof harvestWindowForm>>;

/** What a garden source gave in a year, from how many plants. An empty amount takes it back. */
export const gardenYieldForm = z.object({
  sourceId: idField('Where', sourceId),
  year: numberField({ label: 'Year', ...bounds.year, example: '2026' }),
  lb: optionalNumberField({ label: 'It gave', ...bounds.lbGiven, unit: 'lb', example: '60' }),
  plants: optionalNumberField({ label: 'Plants', ...bounds.plants, example: '12' }),
});
export type GardenYieldRequest = Readonly<z.output<typeof gardenYieldForm>>;

/** "First picked today": shifts this year's window. An empty date takes it back. */
export const firstPickedForm = z.object({
  sourceId: idField('Source', sourceId),
  year: numberField({ label: 'Year', ...bounds.year, example: '2026' }),
  firstPickedOn: optionalDateField('First picked'),
});
export type FirstPicked = Readonly<z.output<typeof firstPickedForm>>;
