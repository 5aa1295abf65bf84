import { type FormFields, InputField, RadioField } from './fields.tsx';

/** A height above the sea as it is typed, and as it was understood. */
export interface AltitudeFieldsProps<Unit extends string> {
  readonly form: FormFields<Readonly<Record<'altitude' | Unit, string>>>;
  /** Name of the field of the unit. */
  readonly unitName: Unit;
  readonly hint?: string;
  /** "1,240 m is 4,068 ft: the band 3,001 to 6,000 ft"; null where nothing, or nothing plain, is typed. */
  readonly echo: string | null;
  /** Goes back with the form: which height was shown. */
  readonly mark: string;
}

type Typed = Readonly<Record<string, string>>;

/** Asked in feet or metres and shown back in both before it is kept. */
export const AltitudeFields = <Unit extends string>(props: AltitudeFieldsProps<Unit>) => (
  <>
    <input type="hidden" name="altitudeSeen" value={props.mark} />
    <div class="form-row">
      <InputField<Typed>
        form={props.form}
        name="altitude"
        label="Altitude of your kitchen"
        {...(props.hint === undefined ? {} : { hint: props.hint })}
        inputMode="decimal"
        width="short"
      />
      <RadioField<Typed>
        form={props.form}
        name={props.unitName}
        label="In"
        choices={[
          { value: 'ft', words: 'feet' },
          { value: 'm', words: 'meters' },
        ]}
      />
    </div>
    {props.echo === null || props.form.problems.altitude !== undefined ? null : (
      <p class="hint">{`${props.echo}.`}</p>
    )}
  </>
);
