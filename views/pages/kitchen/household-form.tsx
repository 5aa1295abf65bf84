import { counted } from '../../../shared/counting.ts';
import type { householdForm } from '../../../shared/schemas/kitchen.ts';
import { Button } from '../../parts/button.tsx';
import { hasProblems, InputField, RadioField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import type { Said } from './kitchen-form.tsx';

export interface HouseholdFormProps extends StateOf<typeof householdForm> {
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
  regions,
  currencies,
  timeZones,
  said,
  ...form
}: HouseholdFormProps & Said) => (
  <Part
    id="household"
    title="People, units and dates"
    said={said}
    folded={{
      words: `${form.values.name}, ${counted(form.values.people, 'person', 'people')}`,
      open: hasProblems(form),
    }}
  >
    <PostForm
      action="/kitchen/household"
      form={form}
      label="People, units and dates"
      within="#main"
      besides=".site-household"
    >
      <div class="form-row">
        <InputField form={form} name="name" label="Name of the household" />
        <InputField form={form} name="people" label="People at the table" inputMode="numeric" width="short" />
      </div>
      <div class="form-row">
        <RadioField
          form={form}
          name="units"
          label="Amounts in"
          choices={[
            { value: 'us', words: 'pounds, quarts and feet' },
            { value: 'metric', words: 'kilograms, liters and meters' },
          ]}
        />
        <RadioField
          form={form}
          name="weekStartsOn"
          label="A week starts on"
          choices={[
            { value: 'sunday', words: 'Sunday' },
            { value: 'monday', words: 'Monday' },
          ]}
        />
      </div>
      <div class="form-row">
        <SelectField
          form={form}
          name="currency"
          label="Currency"
          hint="Amounts stay the same; only the sign changes."
          choices={currencies}
        />
        <SelectField form={form} name="locale" label="Date format" choices={dateChoices} />
        <SelectField form={form} name="timeZone" label="Time zone" choices={timeZones} />
        <SelectField form={form} name="region" label="Region" choices={regions} />
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
