import type { FormValues } from '../../shared/schemas/form-fields.ts';
import {
  type Choice,
  type FieldProblems,
  type FormKeys,
  noProblems,
  CheckField as UnboundCheckField,
  InputField as UnboundInputField,
  RadioField as UnboundRadioField,
  SelectField as UnboundSelectField,
} from './form.tsx';

/** What stands in the fields of a form by their names: text, or whether a box is ticked. */
export type FieldValues = Readonly<Record<string, string | boolean>>;

/** The fields of a form as they stand: what is kept or was typed, and what has to be mended of it. */
export interface FormFields<Values extends FieldValues> {
  /** Words that make the ids of its fields unique on the page. */
  readonly formId: string;
  readonly values: Values;
  readonly problems: FieldProblems;
}

/** One form that changes something, as it stands. */
export interface FormState<Values extends FieldValues> extends FormFields<Values> {
  readonly keys: FormKeys;
}

/** The state of a form that is read by a schema, its values as `FormValues` has them. */
export type StateOf<Schema, Without extends string = never, Besides extends string = never> = FormState<
  FormValues<Schema, Without, Besides>
>;

/** The fields of a form that asks, or that nothing can be wrong with. */
export const fieldsWith = <Values extends FieldValues>(
  formId: string,
  values: Values,
): FormFields<Values> => ({
  formId,
  values,
  problems: noProblems,
});

/** Whether something in one of the forms has to be mended: then it stands open. */
export const hasProblems = (...forms: readonly { readonly problems: FieldProblems }[]): boolean =>
  forms.some(({ problems }) => Object.keys(problems).length > 0);

/** Names of the fields that hold text, or those that are ticked. */
export type NamesOf<Values, Kind> = {
  [Name in keyof Values]: Values[Name] extends Kind ? Name : never;
}[keyof Values] &
  string;

/** A field of a form: its name is one of the form's, and its value and problem are those the form has for it. */
interface OwnField<Values extends FieldValues, Kind> {
  readonly form: FormFields<Values>;
  readonly name: NamesOf<Values, Kind>;
  readonly label: string;
  readonly hint?: string | undefined;
}

/** Props of a field of some form, for a part that stands in several. */
type Wired<Props> = Omit<Props, 'form' | 'name' | 'label' | 'hint' | 'value' | 'checked' | 'problem'>;

const wired = <Values extends FieldValues, Kind>({ form, name, label, hint }: OwnField<Values, Kind>) => ({
  form: form.formId,
  name,
  label,
  ...(hint === undefined ? {} : { hint }),
  problem: form.problems[name],
});

const textIn = <Values extends FieldValues>(form: FormFields<Values>, name: string): string => {
  const value = form.values[name];
  return typeof value === 'string' ? value : '';
};

type InputProps<Values extends FieldValues> = OwnField<Values, string> &
  Wired<Parameters<typeof UnboundInputField>[0]> & { readonly secret?: true };

/** What is typed in secret stands in no page: a passphrase, a code, a link that opens something. */
const isSecret = ({ type, autocomplete, secret }: Partial<InputProps<FieldValues>>): boolean =>
  type === 'password' || autocomplete === 'one-time-code' || secret === true;

export const InputField = <Values extends FieldValues>({
  form,
  name,
  label,
  hint,
  ...own
}: InputProps<Values>) => (
  <UnboundInputField
    {...own}
    {...wired({ form, name, label, hint })}
    value={isSecret(own) ? '' : textIn(form, name)}
  />
);

type SelectProps<Values extends FieldValues> = OwnField<Values, string> &
  Wired<Parameters<typeof UnboundSelectField>[0]>;

export const SelectField = <Values extends FieldValues>({
  form,
  name,
  label,
  hint,
  ...own
}: SelectProps<Values>) => (
  <UnboundSelectField {...own} {...wired({ form, name, label, hint })} value={textIn(form, name)} />
);

type RadioProps<Values extends FieldValues> = OwnField<Values, string> & {
  readonly choices: readonly Choice[];
};

export const RadioField = <Values extends FieldValues>({ choices, ...own }: RadioProps<Values>) => (
  <UnboundRadioField choices={choices} {...wired(own)} value={textIn(own.form, own.name)} />
);

type CheckProps<Values extends FieldValues> = OwnField<Values, boolean> & {
  /** What is sent when it is ticked. */
  readonly value?: string;
};

export const CheckField = <Values extends FieldValues>({ value = 'yes', ...own }: CheckProps<Values>) => (
  <UnboundCheckField {...wired(own)} value={value} checked={own.form.values[own.name] === true} />
);
