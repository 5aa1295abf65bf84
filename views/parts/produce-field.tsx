import { type FieldValues, type FormFields, InputField, type NamesOf, SelectField } from './fields.tsx';
import type { Choice } from './form.tsx';

export interface ProduceFieldProps<Values extends FieldValues> {
  readonly form: FormFields<Values>;
  readonly name: NamesOf<Values, string>;
  readonly label: string;
  readonly hint?: string | undefined;
  /** What else it may be in; with one or none, the unit stands behind the field. */
  readonly units: readonly Choice[];
  /** Stands behind the field where nothing else may be chosen. */
  readonly unit?: string;
}

/** An amount of produce, and what it is in; the choice is the form's value `<name>Unit`. */
export const ProduceField = <Values extends FieldValues>({
  form,
  name,
  label,
  hint,
  units,
  unit = '',
}: ProduceFieldProps<Values>) => {
  const amount = (
    <InputField
      form={form}
      name={name}
      label={label}
      hint={hint}
      inputMode="decimal"
      width="short"
      {...(units.length > 1 || unit === '' ? {} : { unit })}
    />
  );
  if (units.length < 2) return amount;
  return (
    <div class="form-row">
      {amount}
      <SelectField form={form} name={unitNameOf<Values>(name)} label="In" choices={units} />
    </div>
  );
};

const unitNameOf = <Values extends FieldValues>(name: NamesOf<Values, string>) =>
  `${name}Unit` as NamesOf<Values, string>;
