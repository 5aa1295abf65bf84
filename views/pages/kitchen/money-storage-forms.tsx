import { Button } from '../../parts/button.tsx';
import { type Choice, InputField, PostForm, SelectField } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import type { FormState } from './form-state.ts';
import { type RemovableLine, RemovableList } from './time-forms.tsx';

export type SeasonFundValues = Readonly<Record<'balance' | 'balanceOn' | 'weekly', string>>;
export type StorageValues = Readonly<
  Record<
    'temperature' | 'temperatureUnit' | 'discardCeilingMonths' | 'crockQuarts' | 'freezerQuartsPerDay',
    string
  >
>;
export type PlaceValues = Readonly<Record<'name' | 'kind' | 'capacityQuarts', string>>;

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
          label="In the fund"
          value={values.balance}
          inputMode="decimal"
          width="short"
          unit="$"
          problem={problems.balance}
        />
        <InputField
          form="fund"
          name="balanceOn"
          type="date"
          label="On"
          value={values.balanceOn}
          problem={problems.balanceOn}
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
  readonly places: readonly RemovableLine[];
  readonly place: FormState<PlaceValues>;
}

const placeKinds: readonly Choice[] = [
  { value: 'shelf', words: 'shelf' },
  { value: 'cellar', words: 'cellar' },
  { value: 'freezer', words: 'freezer' },
  { value: 'refrigerator', words: 'refrigerator' },
];

/** Where jars stand and how warm it is there. */
export const Storage = ({ said, form, places, place }: StorageProps) => (
  <Part id="storage" title="Storage" line={said}>
    <StorageForm {...form} />
    <h3>Places</h3>
    <RemovableList lines={places} none="No place has a name yet." />
    <PlaceForm {...place} />
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
    </div>
    <div class="form-row">
      <InputField
        form="storage"
        name="crockQuarts"
        label="Crocks hold in all"
        value={values.crockQuarts}
        inputMode="decimal"
        width="short"
        unit="qt"
        problem={problems.crockQuarts}
      />
      <InputField
        form="storage"
        name="freezerQuartsPerDay"
        label="The freezer can freeze"
        hint="Empty when it does not matter."
        value={values.freezerQuartsPerDay}
        inputMode="decimal"
        width="short"
        unit="qt a day"
        problem={problems.freezerQuartsPerDay}
      />
      <Button weight="main">Save</Button>
    </div>
  </PostForm>
);

const PlaceForm = ({ keys, values, problems }: FormState<PlaceValues>) => (
  <details class="fold" open={Object.keys(problems).length > 0}>
    <summary>Add a place</summary>
    <PostForm action="/kitchen/places" keys={keys} problems={problems} label="A place">
      <div class="form-row">
        <InputField form="place" name="name" label="Name" value={values.name} problem={problems.name} />
        <SelectField
          form="place"
          name="kind"
          label="Kind"
          value={values.kind}
          choices={placeKinds}
          problem={problems.kind}
        />
        <InputField
          form="place"
          name="capacityQuarts"
          label="Holds"
          hint="Empty when there is room enough."
          value={values.capacityQuarts}
          inputMode="decimal"
          width="short"
          unit="qt"
          problem={problems.capacityQuarts}
        />
        <Button>Add</Button>
      </div>
    </PostForm>
  </details>
);
