import { Button } from '../../parts/button.tsx';
import { InputField, SelectField } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { type FormState, hasProblems } from './form-state.ts';
import { KitchenForm, type Said } from './kitchen-form.tsx';

export type StorageValues = Readonly<
  Record<'temperature' | 'temperatureUnit' | 'discardCeilingMonths' | 'crocks' | 'freezes', string>
>;

export interface StorageProps {
  /** "61 °F: within the 50 to 70 °F that best-quality dates are published for." */
  readonly known: string;
  readonly volume: 'qt' | 'L';
  readonly form: FormState<StorageValues>;
}

/** How warm it is where jars stand, how long they are kept, and what crocks and the freezer take. */
export const Storage = ({ known, volume, form: { keys, values, problems }, said }: StorageProps & Said) => (
  <Part
    id="storage"
    title="Storage"
    line={known}
    said={said}
    folded={{ words: 'Temperature, keeping time, crocks and freezing', open: hasProblems({ problems }) }}
  >
    <KitchenForm part="storage" action="/kitchen/storage" keys={keys} problems={problems} label="Storage">
      <input type="hidden" name="volumeUnit" value={volume} />
      <div class="form-row">
        <InputField
          form="storage"
          name="temperature"
          label="Temperature where you keep jars"
          hint="Leave blank if you don’t know."
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
          name="crocks"
          label="Crocks hold in all"
          hint="Ferments fill them for weeks. Write 0 if you have none."
          value={values.crocks}
          inputMode="decimal"
          width="short"
          unit={volume}
          problem={problems.crocks}
        />
        <InputField
          form="storage"
          name="freezes"
          label="Freezer can freeze per day"
          hint="Leave blank to plan no freezing."
          value={values.freezes}
          inputMode="decimal"
          width="short"
          unit={volume}
          problem={problems.freezes}
        />
        <Button weight="main">Save</Button>
      </div>
    </KitchenForm>
  </Part>
);
