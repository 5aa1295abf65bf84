import { Button } from '../../parts/button.tsx';
import { InputField, PostForm, SelectField } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import type { FormState } from './form-state.ts';

export type SeasonFundValues = Readonly<Record<'balance' | 'weekly', string>>;
export type StorageValues = Readonly<
  Record<'temperature' | 'temperatureUnit' | 'discardCeilingMonths', string>
>;

/** Money set aside for the pantry, week by week. */
export const SeasonFundForm = ({ keys, values, problems }: FormState<SeasonFundValues>) => (
  <Part
    id="fund"
    title="Season fund"
    line="Set aside a little every week; what canning and buying spend comes out of it."
  >
    <PostForm action="/kitchen/fund" keys={keys} problems={problems} label="Season fund">
      <div class="form-row">
        <InputField
          form="fund"
          name="balance"
          label="In the fund today"
          value={values.balance}
          inputMode="decimal"
          width="short"
          unit="$"
          problem={problems.balance}
        />
        <InputField
          form="fund"
          name="weekly"
          label="Set aside"
          value={values.weekly}
          inputMode="decimal"
          width="short"
          unit="$ a week"
          problem={problems.weekly}
        />
        <Button weight="main">Save</Button>
      </div>
    </PostForm>
  </Part>
);

export interface StorageProps {
  /** "61 °F: within the 50 to 70 °F that best-quality dates are published for." */
  readonly said: string;
  readonly form: FormState<StorageValues>;
  /** "Cellar bay 2: cellar, holds 60 qt" */
  readonly places: readonly string[];
}

/** Where jars stand and how warm it is there. */
export const Storage = ({ said, form, places }: StorageProps) => (
  <Part id="storage" title="Storage" line={said}>
    <StorageForm {...form} />
    <h3>Places</h3>
    {places.length === 0 ? (
      <EmptyState text="No place has a name yet." />
    ) : (
      <ul class="plain-list">
        {places.map((place) => (
          <li key={place}>{place}</li>
        ))}
      </ul>
    )}
  </Part>
);

const StorageForm = ({ keys, values, problems }: FormState<StorageValues>) => (
  <PostForm action="/kitchen/storage" keys={keys} problems={problems} label="Storage">
    <div class="form-row">
      <InputField
        form="storage"
        name="temperature"
        label="Temperature where the jars stand"
        hint="Empty when you do not know it."
        value={values.temperature}
        inputMode="decimal"
        width="short"
        problem={problems.temperature}
      />
      <SelectField
        form="storage"
        name="temperatureUnit"
        label="In"
        value={values.temperatureUnit}
        choices={[
          { value: 'F', words: '°F' },
          { value: 'C', words: '°C' },
        ]}
        problem={problems.temperatureUnit}
      />
      <InputField
        form="storage"
        name="discardCeilingMonths"
        label="Throw away at the latest after"
        hint="Months since it was put up: your own rule."
        value={values.discardCeilingMonths}
        inputMode="numeric"
        width="short"
        unit="months"
        problem={problems.discardCeilingMonths}
      />
      <Button weight="main">Save</Button>
    </div>
  </PostForm>
);
