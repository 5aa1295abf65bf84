import { z } from 'zod';
import { type Bound, bounds, letters, moneyBounds } from '../bounds.ts';
import { family } from '../family.ts';
import { cropKey, itemId } from '../ids.ts';
import { jarKind, jarKinds } from '../jar.ts';
import { countsAsKinds } from '../meal-kinds.ts';
import {
  choiceField,
  moneyField,
  numberField,
  optionalChoiceField,
  optionalNumberField,
  textField,
  tickField,
  toldBeside,
} from './form-fields.ts';
import { idField, optionalIdField } from './id-fields.ts';

const days = (label: string, bound: Bound) => ({ label, ...bound, unit: 'days', example: '30' }) as const;

/** Chances a household can ask for, as a person says them: so many years in 20. */
const yearsInTwenty = numberField({
  label: 'How sure you want to be',
  choose: 'chance',
  ...bounds.yearsInTwenty,
  example: '18',
});
const familyMinimum = optionalNumberField({ label: 'Never less than', ...bounds.yearlyUnits, example: '12' });
const handsOn = numberField({
  label: 'Work for one batch',
  ...bounds.handsOnMinutes,
  unit: 'minutes',
  example: '90',
});

const itemUnits = ['lb', 'each', 'bag', 'bin'] as const;

/** What another batch leaves, by its key: "apple-pulp". */
const materialKey = z.string().regex(/^[a-z0-9][a-z0-9-]{0,119}$/, 'Choose what another batch leaves.');

/** How much is eaten, in the two words a beginner has. Empty: not said yet. */
const firstUse = {
  amount: optionalNumberField({ label: 'How many you eat', ...bounds.useAmount, example: '2' }),
  per: choiceField('time', ['week', 'month', 'year']).prefault('month'),
};

/** A preserve from the recipe book; the pounds of its crops come as `lb-<crop>` beside it. */
export const preserveForm = z.object({
  recipe: textField('Recipe'),
  name: textField('What you call it', letters.name),
  family: choiceField('kind of food', family.options),
  jarKind: idField('Jar', jarKind),
  handsOnMinutes: handsOn,
  yearsInTwenty: yearsInTwenty.prefault('16'),
  ...firstUse,
});

/** Ways of putting up that need no canner. */
export const uncannedKeepings = ['frozen', 'dried', 'cellar', 'fermented', 'refrigerated'] as const;
export type UncannedKeeping = (typeof uncannedKeepings)[number];

/** What something that needs no canner is counted in: bags, pounds, bins, pieces, or jars of one kind. */
export const uncannedUnits = [...itemUnits, ...jarKinds] as const;

/** Something frozen, dried, cellared or fermented and kept cold, as the household does it. */
export const uncannedForm = z
  .object({
    name: textField('What you call it', letters.name),
    family: choiceField('kind of food', family.options),
    keeping: choiceField('way of keeping', uncannedKeepings),
    crop: optionalIdField('Crop', cropKey),
    lb: optionalNumberField({ label: 'For one batch', ...bounds.cropLb, unit: 'lb', example: '8' }),
    material: optionalIdField('By-product', materialKey),
    materialLb: optionalNumberField({
      label: 'Of that, for one batch',
      ...bounds.materialQuantity,
      unit: 'lb',
      example: '2',
    }),
    units: numberField({ label: 'One batch gives', ...bounds.batchYield, example: '4' }),
    unit: choiceField('unit', uncannedUnits),
    handsOnMinutes: handsOn,
    readyAfterDays: optionalNumberField({
      label: 'Ready after',
      ...bounds.daysUntilReady,
      unit: 'days',
      example: '14',
    }),
    bestQualityDays: optionalNumberField(days('Best quality for', bounds.bestQualityDays)),
    freezerQuarts: optionalNumberField({
      label: 'One takes up in the freezer',
      ...bounds.freezerQuartsOfOne,
      unit: 'quarts',
      example: '1',
    }),
    yearsInTwenty: yearsInTwenty.prefault('16'),
    ...firstUse,
  })
  .refine(
    ({ crop, lb }) => crop === null || lb !== null,
    toldBeside<Readonly<Record<'crop' | 'lb', unknown>>>(
      'lb',
      ['crop', 'lb'],
      'Write how much one batch takes: weigh it once, or put your guess.',
    ),
  )
  .refine(
    ({ crop, lb }) => crop !== null || lb === null,
    toldBeside<Readonly<Record<'crop' | 'lb', unknown>>>(
      'crop',
      ['crop', 'lb'],
      'Choose what that is of, or clear it.',
    ),
  )
  .refine(
    ({ material, materialLb }) => material === null || materialLb !== null,
    toldBeside<Readonly<Record<'material' | 'materialLb', unknown>>>(
      'materialLb',
      ['material', 'materialLb'],
      'Write how much of it one batch takes: weigh it once, or put your guess.',
    ),
  )
  .refine(
    ({ material, materialLb }) => material !== null || materialLb === null,
    toldBeside<Readonly<Record<'material' | 'materialLb', unknown>>>(
      'material',
      ['material', 'materialLb'],
      'Choose what those pounds are left of, or clear them.',
    ),
  );
export type UncannedRequest = Readonly<z.output<typeof uncannedForm>>;

/** What a field of pounds is called; what it is in is chosen beside it. */
export const poundsLabel = (crop: string): string =>
  `${crop.charAt(0).toUpperCase()}${crop.slice(1)} for one batch`;

/** The name of the field beside a crop. */
export const poundsFieldOf = (crop: string): string => `lb-${crop}`;

export const poundsField = (crop: string) =>
  numberField({ label: poundsLabel(crop), ...bounds.cropLb, unit: 'lb', example: '8' });

/** Something that is only bought. */
export const stapleForm = z.object({
  name: textField('What you call it', letters.name),
  family: choiceField('kind of food', family.options).prefault('dry-goods'),
  unit: choiceField('unit', itemUnits),
  bestQualityDays: numberField(days('Best quality for', bounds.bestQualityDays)),
  packUnits: numberField({ label: 'How many in a pack', ...bounds.unitsInPack, example: '5' }),
  packPrice: moneyField({ label: 'Price of a pack', ...moneyBounds.pack }),
  yearsInTwenty: yearsInTwenty.prefault('18'),
  ...firstUse,
});

/** What can be changed of an item at any time. */
export const itemForm = z.object({
  itemId: idField('Item', itemId),
  name: textField('Name', letters.name),
  family: choiceField('kind of food', family.options),
  yearsInTwenty,
  familyMinimum,
  emergencyUnits: optionalNumberField({
    label: 'Kept for an emergency',
    ...bounds.emergencyUnits,
    example: '6',
  }),
  servingsPerUnit: optionalNumberField({ label: 'Servings in one', ...bounds.servingsPerUnit, example: '4' }),
  countsAs: optionalChoiceField('kind of serving', countsAsKinds),
  bestQualityDays: numberField(days('Best quality for', bounds.bestQualityDays)),
  keepColdDays: optionalNumberField(days('Once opened, keeps cold for', bounds.keepColdDays)),
});

const month = (label: string) => optionalNumberField({ label, ...bounds.month, example: '11' });

/** A pack as a shop sells it; without an id a new one is added. Sale months come with their price or not at all. */
export const packForm = z
  .object({
    itemId: idField('Item', itemId),
    packId: z.string().max(letters.key).prefault(''),
    units: numberField({ label: 'In a pack', ...bounds.unitsInPack, example: '5' }),
    price: moneyField({ label: 'Price', ...moneyBounds.pack }),
    saleFromMonth: month('On sale from month').prefault(''),
    saleUntilMonth: month('On sale until month').prefault(''),
    salePrice: z
      .union([z.literal('').transform(() => null), moneyField({ label: 'Sale price', ...moneyBounds.pack })])
      .prefault(''),
    /** Asked of what is put up here; what is only bought is always planned. */
    mayBuy: tickField(),
  })
  .refine(
    (pack) => {
      const said = [pack.saleFromMonth, pack.saleUntilMonth, pack.salePrice].filter((one) => one !== null);
      return said.length === 0 || said.length === 3;
    },
    toldBeside<Readonly<Record<'saleFromMonth' | 'saleUntilMonth' | 'salePrice', unknown>>>(
      'salePrice',
      ['saleFromMonth', 'saleUntilMonth', 'salePrice'],
      'A sale has a first month, a last month and a price; some of them are empty. Fill in the rest or clear them.',
    ),
  );
export type PackRequest = Readonly<z.output<typeof packForm>>;

/** Sugar, vinegar, pectin: what a pack holds and costs, and what is there. */
export const supplyForm = z.object({
  supplyId: textField('Supply', letters.key),
  packQuantity: numberField({ label: 'In a pack', ...bounds.packQuantity, example: '4' }),
  packPrice: moneyField({ label: 'Price of a pack', ...moneyBounds.pack }),
  onHand: numberField({ label: 'On hand now', ...bounds.onHand, example: '6' }),
});
export type SupplyRequest = Readonly<z.output<typeof supplyForm>>;

/** How a recipe is done here: its canner (none: not planned) and the work of one batch. */
/** Whether produce goes straight into a batch, or may wait for it in the freezer. */
const producesOfRecipe = ['fresh', 'frozen-too'] as const;

export const ownRecipeForm = z.object({
  recipeId: textField('Recipe', letters.key),
  cannerId: optionalIdField('Canner', z.string().regex(/^[a-z0-9][a-z0-9-]{0,63}$/, 'Choose a canner.')),
  handsOnMinutes: handsOn,
  /** Left out where it is not asked: then it stays as it is. */
  madeOf: optionalChoiceField('what it is made of', producesOfRecipe),
});
export type OwnRecipeRequest = Readonly<z.output<typeof ownRecipeForm>>;

/** How much one batch of the household's own way gives. */
export const ownYieldForm = z.object({
  units: numberField({ label: 'One batch gives', ...bounds.batchYield, example: '4' }),
});

/** What one batch leaves for others, and takes of what others leave; the amounts are the household's own. */
export const leftOversForm = z
  .object({
    recipeId: textField('Recipe', letters.key),
    leaves: optionalIdField('By-product', materialKey),
    leavesAmount: optionalNumberField({
      label: 'Left of one batch',
      ...bounds.materialQuantity,
      example: '2.5',
    }),
    takes: optionalIdField('By-product', materialKey),
    takesAmount: optionalNumberField({
      label: 'Taken for one batch',
      ...bounds.materialQuantity,
      example: '2.5',
    }),
  })
  .refine(
    ({ leaves, leavesAmount }) => leaves === null || leavesAmount !== null,
    toldBeside<Readonly<Record<'leaves' | 'leavesAmount', unknown>>>(
      'leavesAmount',
      ['leaves', 'leavesAmount'],
      'Write how much of it one batch leaves: weigh it once, or put your guess.',
    ),
  )
  .refine(
    ({ leaves, leavesAmount }) => leaves !== null || leavesAmount === null,
    toldBeside<Readonly<Record<'leaves' | 'leavesAmount', unknown>>>(
      'leaves',
      ['leaves', 'leavesAmount'],
      'Choose what that amount is of, or clear it.',
    ),
  )
  .refine(
    ({ takes, takesAmount }) => takes === null || takesAmount !== null,
    toldBeside<Readonly<Record<'takes' | 'takesAmount', unknown>>>(
      'takesAmount',
      ['takes', 'takesAmount'],
      'Write how much of it one batch takes: weigh it once, or put your guess.',
    ),
  )
  .refine(
    ({ takes, takesAmount }) => takes !== null || takesAmount === null,
    toldBeside<Readonly<Record<'takes' | 'takesAmount', unknown>>>(
      'takes',
      ['takes', 'takesAmount'],
      'Choose what that amount is of, or clear it.',
    ),
  )
  .refine(
    ({ leaves, takes }) => leaves === null || leaves !== takes,
    toldBeside<Readonly<Record<'leaves' | 'takes', unknown>>>(
      'takes',
      ['leaves', 'takes'],
      'A batch cannot take what it leaves itself. Choose what another recipe leaves.',
    ),
  );
export type LeftOversRequest = Readonly<z.output<typeof leftOversForm>>;
