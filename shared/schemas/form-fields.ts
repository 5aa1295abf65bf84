import { z } from 'zod';
import { type Bound, letters } from '../bounds.ts';
import { withoutSign } from '../currency.ts';
import { asCents, type Cents } from '../money.ts';
import { found, type Outcome, refused } from '../problems.ts';
import { readTypedNumber, type TypedNumber } from '../typed-number.ts';
import { type CalendarDate, calendarDate, firstYear, lastYear } from '../week.ts';
import { unfitSign } from './one-line.ts';

// What people type, read field by field. Every message says what does not fit and what to do next, as one would say it.

/** The longest text that is echoed back in a message. */
const longestEcho = 40;

const echo = (text: string): string =>
  text.length > longestEcho ? `“${text.slice(0, longestEcho)}…”` : `“${text}”`;

/** What a value says as text; lists and objects, which no field of ours sends, say nothing. */
const textOf = (value: unknown): string =>
  typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? String(value) : '';

/** The last value sent under a name, trimmed; a field that was not sent reads as empty. */
export const typed = z.preprocess((raw) => {
  const last = Array.isArray(raw) ? raw.at(-1) : raw;
  return textOf(last).trim();
}, z.string());

type Check<T> = (text: string) => { readonly value: T } | { readonly problem: string };

const field = <T>(check: Check<T>) =>
  typed.transform((text, context): T => {
    const answer = check(text);
    if ('value' in answer) return answer.value;
    context.issues.push({ code: 'custom', message: answer.problem, input: text });
    return z.NEVER;
  });

export interface NumberRule {
  readonly label: string;
  readonly from: number;
  readonly to: number;
  readonly unit?: string;
  readonly whole?: boolean;
  readonly example?: string;
  /** Chosen from a list, and called so behind “Choose a”: `day`. */
  readonly choose?: string;
}

/** Amounts a kitchen measures in fractions. */
const measuredInFractions = /^(lb|cups?|tbsp|tsp|oz|qt|quarts?|pints?|gal)$/;

/** The number, or the two it may be with only one of them allowed here; a unit of the rule may be typed along. */
function numberTyped(text: string, { unit, whole, from, to }: NumberRule): TypedNumber {
  const bare = unit && text.toLowerCase().endsWith(unit.toLowerCase()) ? text.slice(0, -unit.length) : text;
  const read = readTypedNumber(bare, { fractions: whole !== true && measuredInFractions.test(unit ?? 'lb') });
  if (read.kind !== 'unclear') return read;
  const fits = (value: number): boolean =>
    value >= from && value <= to && (!whole || Number.isInteger(value));
  const fitting = [read.larger, read.smaller].filter(fits);
  const [only] = fitting;
  return fitting.length === 1 && only !== undefined && !whole
    ? { kind: 'number', value: only, isPlain: false }
    : read;
}

/** `jars or bags`, `jars, bags or bins`. */
const oneOf = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;

/** “Choose a jar.”; no choice is named by its key, only in the words a person reads. */
export const chooseOne = (what: string): string => `Choose ${/^[aeio]/i.test(what) ? 'an' : 'a'} ${what}.`;

function checkNumber(rule: NumberRule): Check<number> {
  const unit = rule.unit === undefined ? '' : rule.unit === '%' ? '%' : ` ${rule.unit}`;
  const kind = rule.whole ? 'a whole number' : 'a number';
  const wanted = `${kind} from ${rule.from.toLocaleString('en-US')} to ${rule.to.toLocaleString('en-US')}${unit}`;
  return (text) => {
    if (rule.choose !== undefined && numberTyped(text, rule).kind !== 'number')
      return { problem: chooseOne(rule.choose) };
    if (text === '') return { problem: `${rule.label} is empty. Write ${wanted}.` };
    const not = `${rule.label} cannot be ${echo(text)}`;
    const read = numberTyped(text, rule);
    if (read.kind === 'none')
      return { problem: `${not}. Write ${wanted}, in digits like ${rule.example ?? '12'}.` };
    if (read.kind === 'unclear')
      return {
        problem: `${not}, which may be ${read.larger} or ${read.smaller}. Write ${read.larger}${rule.whole ? '' : `, or ${read.smaller}0 for the other`}.`,
      };
    const { value } = read;
    if (rule.whole && !Number.isInteger(value))
      return { problem: `${not}: it is counted whole. Leave out the fraction.` };
    if (value < rule.from || value > rule.to) return { problem: `${not}. Write ${wanted}.` };
    return { value };
  };
}

/** What a field of a form says of itself: its bound, or how many letters it takes. */
export type FieldBound =
  | { readonly kind: 'number' | 'money'; readonly bound: Bound }
  | { readonly kind: 'text'; readonly letters: number };

const numbers = ({ from, to, whole }: NumberRule, kind: 'number' | 'money' = 'number'): FieldBound => ({
  kind,
  bound: { from, to, ...(whole ? { whole: true as const } : {}) },
});

export const numberField = (rule: NumberRule) => field(checkNumber(rule)).meta({ says: numbers(rule) });

/** Empty reads as null: not said. */
export const optionalNumberField = (rule: NumberRule) =>
  field<number | null>((text) => (text === '' ? { value: null } : checkNumber(rule)(text))).meta({
    says: numbers(rule),
  });

/** A sum as typed, with or without the sign of its currency, to whole hundredths. */
export const moneyField = (rule: { readonly label: string; readonly from: number; readonly to: number }) =>
  field<Cents>((text) => {
    const amount = checkNumber({
      ...rule,
      example: '12.50',
    })(withoutSign(text));
    return 'value' in amount ? { value: asCents(amount.value * 100) } : amount;
  }).meta({ says: numbers(rule, 'money') });

/** Years a date may lie in, both included. */
export interface YearSpan {
  readonly first: number;
  readonly last: number;
}

const checkDate =
  (label: string, { first, last }: YearSpan = { first: firstYear, last: lastYear }): Check<CalendarDate> =>
  (text) => {
    if (text === '') return { problem: `${label} is empty. Pick a day.` };
    const shaped = /^\d{4}-\d{2}-\d{2}$/.test(text);
    const year = Number(text.slice(0, 4));
    if (shaped && (year < first || year > last))
      return {
        problem: `${label} cannot be ${echo(text)}. Pick a day of the years ${first} to ${last}.`,
      };
    const read = calendarDate.safeParse(text);
    if (read.success) return { value: read.data };
    return {
      problem: shaped
        ? `${label} cannot be ${echo(text)}, which is no day of the calendar. Pick another day.`
        : `${label} cannot be ${echo(text)}. Write year, month and day, like 2026-08-17.`,
    };
  };

export const dateField = (label: string) => field(checkDate(label));
export const optionalDateField = (label: string, years?: YearSpan) =>
  field<CalendarDate | null>((text) => (text === '' ? { value: null } : checkDate(label, years)(text)));

const checkText =
  (label: string, longest: number, least: number): Check<string> =>
  (text) => {
    if (text.length < least)
      return {
        problem: `${label} is empty. Write something.`,
      };
    if (text.length > longest)
      return { problem: `${label} has room for ${longest} letters; you wrote ${text.length}. Shorten it.` };
    const sign = unfitSign(text);
    if (sign !== null)
      return {
        problem: `${label} is one line of letters and signs that can be seen; yours has ${sign.words} after ${sign.at === 0 ? 'nothing' : `“${text.slice(0, sign.at).slice(-20)}”`}. Take it out.`,
      };
    return { value: text };
  };

const ofLetters = (longest: number): FieldBound => ({ kind: 'text', letters: longest });
export const textField = (label: string, longest: number = letters.name) =>
  field(checkText(label, longest, 1)).meta({ says: ofLetters(longest) });
export const optionalTextField = (label: string, longest = 500) =>
  field(checkText(label, longest, 0)).meta({ says: ofLetters(longest) });

function checkChoice<T extends string>(
  what: string,
  choices: readonly T[],
  words?: (choice: T) => string,
): Check<T> {
  return (text) => {
    const choice = choices.find((candidate) => candidate === text);
    if (choice !== undefined) return { value: choice };
    const ask =
      words === undefined
        ? chooseOne(what)
        : `${chooseOne(what).slice(0, -1)}: ${oneOf(choices.map(words))}.`;
    return { problem: text === '' ? ask : `There is no ${what} ${echo(text)}. ${ask}` };
  };
}

/**
 * One of a closed list. `what` is chosen, as one says it behind “Choose a”: `unit`, `kind of canner`; `words` names the choices
 * as the person reads them.
 */
export const choiceField = <T extends string>(
  what: string,
  choices: readonly T[],
  words?: (choice: T) => string,
) => field(checkChoice(what, choices, words));

/** Empty reads as null: none was chosen. */
export const optionalChoiceField = <T extends string>(
  what: string,
  choices: readonly T[],
  words?: (choice: T) => string,
) => field<T | null>((text) => (text === '' ? { value: null } : checkChoice(what, choices, words)(text)));

/** Whether what was sent of a tick box says that it is ticked. */
export const isTicked = (sent: string): boolean => sent !== '' && sent !== 'no' && sent !== '0';

/** A tick box: sent when ticked, not sent otherwise. */
export const tickField = () => field<boolean>((text) => ({ value: isTicked(text) }));

/**
 * How a rule across fields is told: beside one of them, and also while other fields are unfit, as long as those it looks at
 * can be read. So a form says all that is wrong with it at once. It stands before any transform of the whole form.
 */
export const toldBeside = <Form>(
  beside: keyof Form & string,
  looksAt: readonly (keyof Form & string)[],
  message: string | ((form: Form) => string),
) => ({
  path: [beside],
  when: ({
    issues,
  }: {
    readonly issues: readonly { readonly path?: readonly PropertyKey[] | undefined }[];
  }) => !issues.some(({ path }) => looksAt.some((name) => path?.[0] === name)),
  error: (issue: { readonly input?: unknown }) =>
    typeof message === 'string' ? message : message(issue.input as Form),
});

/** The typed values by field name, as text, to be shown again. */
export function typedValues(body: unknown): Record<string, string> {
  if (typeof body !== 'object' || body === null) return {};
  return Object.fromEntries(
    Object.entries(body).map(([name, raw]) => {
      const last = Array.isArray(raw) ? raw.at(-1) : raw;
      return [name, textOf(last)];
    }),
  );
}

/** The values of the fields that can be read, each by itself, for rules across some of them that need not wait for the others. */
export const fitting = <Schema extends z.ZodType>(
  form: Schema,
  body: unknown,
): Readonly<Partial<z.output<Schema>>> => {
  const typed = (body ?? {}) as Readonly<Record<string, unknown>>;
  return Object.fromEntries(
    Object.entries(fieldsOf(form)).flatMap(([name, schema]) => {
      const read = schema.safeParse(typed[name]);
      return read.success ? [[name, read.data]] : [];
    }),
  ) as Partial<z.output<Schema>>;
};

type ShapeOf<Form> =
  Form extends z.ZodObject<infer Shape>
    ? Shape
    : Form extends z.ZodPipe<infer Before, z.core.SomeType>
      ? ShapeOf<Before>
      : never;

/**
 * What a page shows of a form by the names of its schema: text, or whether a box is ticked. `Without` are values that nobody
 * types, `Besides` texts that are read before the schema: the unit of an amount, a day of the week that is meant.
 */
export type FormValues<Form, Without extends string = never, Besides extends string = never> = {
  readonly [Name in
    | Exclude<keyof ShapeOf<Form> & string, Without>
    | Besides]: Name extends keyof ShapeOf<Form>
    ? z.output<ShapeOf<Form>[Name]> extends boolean
      ? boolean
      : string
    : string;
};

/** The fields of a form, also of one that is turned into something else as a whole. */
const fieldsOf = (form: z.ZodType): Readonly<Record<string, z.ZodType>> => {
  if (form instanceof z.ZodObject) return form.shape as Readonly<Record<string, z.ZodType>>;
  return form instanceof z.ZodPipe ? fieldsOf(form.in as z.ZodType) : {};
};

/** Reads a form by its schema: the value, or one problem per field that has to be mended. */
export function readForm<Schema extends z.ZodType>(schema: Schema, body: unknown): Outcome<z.output<Schema>> {
  const read = schema.safeParse(body ?? {});
  if (read.success) return found(read.data);
  return refused(
    ...read.error.issues.map((issue) => ({
      code: 'form.field',
      path: issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step)),
      message: issue.message,
    })),
  );
}
