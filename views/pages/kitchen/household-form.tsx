import { counted } from '../../../shared/counting.ts';
import { Button } from '../../parts/button.tsx';
import { type Choice, InputField, PostForm, RadioField, SelectField } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { type FormState, hasProblems } from './form-state.ts';
import type { Said } from './kitchen-form.tsx';

export type HouseholdValues = Readonly<
  Record<'name' | 'people' | 'units' | 'weekStartsOn' | 'locale' | 'currency' | 'region' | 'timeZone', string>
>;

export interface HouseholdFormProps extends FormState<HouseholdValues> {
  readonly regions: readonly Choice[];
  readonly currencies: readonly Choice[];
  readonly timeZones: readonly Choice[];
}

/** How dates and times are written, shown by an example. */
export const dateChoices: readonly Choice[] = [
  { value: 'en-US', words: 'Aug 17, 2026, 1:30 PM' },
  { value: 'en-GB', words: '17 Aug 2026, 13:30' },
];

/** Who eats here, where, and how they read amounts, dates and weeks. Every part of the page is written anew with it. */
export const HouseholdForm = ({
  keys,
  values,
  problems,
  regions,
  currencies,
  timeZones,
  said,
}: HouseholdFormProps & Said) => (
  <Part
    id="household"
    title="People, units and dates"
    said={said}
    folded={{
      words: `${values.name}, ${counted(values.people, 'person', 'people')}`,
      open: hasProblems({ problems }),
    }}
  >
    <PostForm
      action="/kitchen/household"
      keys={keys}
      problems={problems}
      label="People, units and dates"
      within="#main"
      besides=".site-household"
    >
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
            { value: 'us', words: 'pounds, quarts and feet' },
            { value: 'metric', words: 'kilograms, liters and meters' },
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
      <div class="form-row">
        <SelectField
          form="household"
          name="currency"
          label="Currency"
          hint="Amounts stay the same; only the sign changes."
          value={values.currency}
          choices={currencies}
          problem={problems.currency}
        />
        <SelectField
          form="household"
          name="locale"
          label="Date format"
          value={values.locale}
          choices={dateChoices}
          problem={problems.locale}
        />
        <SelectField
          form="household"
          name="timeZone"
          label="Time zone"
          value={values.timeZone}
          choices={timeZones}
          problem={problems.timeZone}
        />
        <SelectField
          form="household"
          name="region"
          label="Region"
          value={values.region}
          choices={regions}
          problem={problems.region}
        />
      </div>
      <p class="hint">
        The region only suggests seasons from published tables; seasons you have written down stay as they
        are.
      </p>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </PostForm>
  </Part>
);
