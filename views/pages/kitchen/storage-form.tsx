import type { storageAsTyped } from '../../../shared/schemas/kitchen.ts';
import { Button } from '../../parts/button.tsx';
import { hasProblems, InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { Part } from '../../parts/part.tsx';
import { KitchenForm, type Said } from './kitchen-form.tsx';

export interface StorageProps {
  /** "61 °F: within the 50 to 70 °F that best-quality dates are published for." */
  readonly known: string;
  readonly volume: 'qt' | 'L';
  readonly form: StateOf<typeof storageAsTyped, 'volumeUnit'>;
}

/** How warm it is where jars stand, how long they are kept, and what crocks and the freezer take. */
export const Storage = ({ known, volume, form, said }: StorageProps & Said) => (
  <Part
    id="storage"
    title="Storage"
    line={known}
    said={said}
    folded={{ words: 'Temperature, keeping time, crocks and freezing', open: hasProblems(form) }}
  >
    <KitchenForm part="storage" action="/kitchen/storage" form={form} label="Storage">
      <input type="hidden" name="volumeUnit" value={volume} />
      <div class="form-row">
        <InputField
          form={form}
          name="temperature"
          label="Temperature where you keep jars"
          hint="Leave blank if you don’t know."
          inputMode="decimal"
          width="short"
        />
        <SelectField
          form={form}
          name="temperatureUnit"
          label="In"
          choices={[
            { value: 'F', words: '°F' },
            { value: 'C', words: '°C' },
          ]}
        />
        <InputField
          form={form}
          name="discardCeilingMonths"
          label="Throw away at the latest after"
          hint="Months since it was put up: your own rule."
          inputMode="numeric"
          width="short"
          unit="months"
        />
      </div>
      <div class="form-row">
        <InputField
          form={form}
          name="crocks"
          label="Crocks hold in all"
          hint="Ferments fill them for weeks. Write 0 if you have none."
          inputMode="decimal"
          width="short"
          unit={volume}
        />
        <InputField
          form={form}
          name="freezes"
          label="Freezer can freeze per day"
          hint="Leave blank to plan no freezing."
          inputMode="decimal"
          width="short"
          unit={volume}
        />
        <Button weight="main">Save</Button>
      </div>
    </KitchenForm>
  </Part>
);
