import { Button } from '../../parts/button.tsx';
import { InputField, PostForm, RadioField } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import type { FormState } from './form-state.ts';

export type HouseholdValues = Readonly<Record<'name' | 'people' | 'units' | 'weekStartsOn', string>>;

/** Who eats here, and how they read amounts, dates and weeks. */
export const HouseholdForm = ({ keys, values, problems }: FormState<HouseholdValues>) => (
  <Part id="household" title="People">
    <PostForm action="/kitchen/household" keys={keys} problems={problems} label="People">
      <div class="form-row">
        <InputField
          form="household"
          name="name"
          label="Name of the household"
          value={values.name}
          problem={problems.name}
        />
        <InputField
          form="household"
          name="people"
          label="People at the table"
          value={values.people}
          inputMode="numeric"
          width="short"
          problem={problems.people}
        />
      </div>
      <div class="form-row">
        <RadioField
          form="household"
          name="units"
          label="Amounts in"
          value={values.units}
          choices={[
            { value: 'us', words: 'pounds and feet' },
            { value: 'metric', words: 'kilograms and metres' },
          ]}
          problem={problems.units}
        />
        <RadioField
          form="household"
          name="weekStartsOn"
          label="A week starts on"
          value={values.weekStartsOn}
          choices={[
            { value: 'sunday', words: 'Sunday' },
            { value: 'monday', words: 'Monday' },
          ]}
          problem={problems.weekStartsOn}
        />
      </div>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </PostForm>
  </Part>
);
