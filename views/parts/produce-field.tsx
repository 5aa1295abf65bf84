import { type Choice, InputField, SelectField } from './form.tsx';

export interface ProduceFieldProps {
  readonly form: string;
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  readonly value: string;
  /** What the value is in now. */
  readonly unit: string;
  /** What else it may be in; with one or none, the unit stands behind the field. */
  readonly units: readonly Choice[];
  readonly problem: string | undefined;
  readonly unitProblem?: string | undefined;
}

/** An amount of produce, and what it is in; the choice is called `<name>Unit`. */
export const ProduceField = ({
  form,
  name,
  label,
  hint,
  value,
  unit,
  units,
  problem,
  unitProblem,
}: ProduceFieldProps) => {
  const amount = (
    <InputField
      form={form}
      name={name}
      label={label}
      {...(hint === undefined ? {} : { hint })}
      value={value}
      inputMode="decimal"
      width="short"
      {...(units.length > 1 || unit === '' ? {} : { unit })}
      problem={problem}
    />
  );
  if (units.length < 2) return amount;
  return (
    <div class="form-row">
      {amount}
      <SelectField
        form={form}
        name={`${name}Unit`}
        label="In"
        value={unit}
        choices={units}
        problem={unitProblem}
      />
    </div>
  );
};
