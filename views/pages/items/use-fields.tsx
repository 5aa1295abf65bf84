import { type FormFields, InputField, SelectField } from '../../parts/fields.tsx';
import { pageNames } from '../../words/page-names.ts';

interface FormWith<Name extends string> {
  readonly form: FormFields<Readonly<Record<Name, string>>>;
}

/** How much is eaten, in the two words a beginner has. */
export const FirstUseFields = ({ form }: FormWith<'amount' | 'per'>) => (
  <div class="form-row">
    <InputField
      form={form}
      name="amount"
      label="How many you eat"
      hint={`Leave blank to set it later under ${pageNames.targets}.`}
      inputMode="decimal"
      width="short"
    />
    <SelectField
      form={form}
      name="per"
      label="In a"
      choices={[
        { value: 'week', words: 'week' },
        { value: 'month', words: 'month' },
        { value: 'year', words: 'year' },
      ]}
    />
  </div>
);

/** The chance of lasting, as years out of twenty. */
export const HowSureField = ({ form }: FormWith<'yearsInTwenty'>) => (
  <SelectField
    form={form}
    name="yearsInTwenty"
    label="How sure you want to be"
    hint="That it lasts until more can be made. More certainty means more in reserve."
    choices={[
      { value: '10', words: '1 year in 2' },
      { value: '14', words: '7 years in 10' },
      { value: '15', words: '3 years in 4' },
      { value: '16', words: '4 years in 5' },
      { value: '17', words: '17 years in 20' },
      { value: '18', words: '9 years in 10' },
      { value: '19', words: '19 years in 20' },
    ]}
  />
);
