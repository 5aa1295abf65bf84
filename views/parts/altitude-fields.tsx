import { InputField, RadioField } from './form.tsx';

/** A height above the sea as it is typed, and as it was understood. */
export interface AltitudeFieldsProps {
  readonly form: string;
  readonly value: string;
  readonly unit: string;
  /** Name of the field of the unit. */
  readonly unitName: string;
  readonly hint?: string;
  /** "1,240 m is 4,068 ft: the band 3,001 to 6,000 ft"; null where nothing, or nothing plain, is typed. */
  readonly echo: string | null;
  /** Goes back with the form: which height was shown. */
  readonly mark: string;
  readonly problem: string | undefined;
  readonly unitProblem: string | undefined;
}

/** Asked in feet or metres and shown back in both before it is kept. */
export const AltitudeFields = (props: AltitudeFieldsProps) => (
  <>
    <input type="hidden" name="altitudeSeen" value={props.mark} />
    <div class="form-row">
      <InputField
        form={props.form}
        name="altitude"
        label="Altitude of your kitchen"
        {...(props.hint === undefined ? {} : { hint: props.hint })}
        value={props.value}
        inputMode="decimal"
        width="short"
        problem={props.problem}
      />
      <RadioField
        form={props.form}
        name={props.unitName}
        label="In"
        value={props.unit}
        choices={[
          { value: 'ft', words: 'feet' },
          { value: 'm', words: 'meters' },
        ]}
        problem={props.unitProblem}
      />
    </div>
    {props.echo === null || props.problem !== undefined ? null : <p class="hint">{`${props.echo}.`}</p>}
  </>
);
