import { counted } from '../../../shared/counting.ts';
import { Button } from '../../parts/button.tsx';
import { type Choice, InputField, RadioField, SelectField } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { type FormState, hasProblems } from './form-state.ts';
import { KitchenForm, type Said } from './kitchen-form.tsx';
import { type RemovableLine, RemovableList } from './time-forms.tsx';

export type PinValues = Readonly<Record<'recipeId' | 'dayInWeek' | 'decision' | 'batches', string>>;

export interface PinsProps {
  readonly lines: readonly RemovableLine[];
  readonly recipes: readonly Choice[];
  readonly form: FormState<PinValues>;
}

/** What the plan may not change: pinned and ruled-out batches. */
export const Pins = ({ lines, recipes, form: { keys, values, problems }, said }: PinsProps & Said) => (
  <Part
    id="pins"
    title="Kept in the plan"
    said={said}
    folded={{
      words: lines.length === 0 ? 'Nothing yet' : counted(lines.length, 'decision'),
      open: hasProblems({ problems }),
    }}
    line="What you decided about a recipe and a week; the plan works around it."
  >
    <RemovableList part="pins" lines={lines} none="Nothing is pinned or ruled out." />
    <details class="fold" open={Object.keys(problems).length > 0}>
      <summary>Pin or rule out</summary>
      <KitchenForm part="pins" action="/kitchen/pins" keys={keys} problems={problems} label="Pin or rule out">
        <SelectField
          form="pin"
          name="recipeId"
          label="Recipe"
          value={values.recipeId}
          choices={recipes}
          problem={problems.recipeId}
        />
        <InputField
          form="pin"
          name="dayInWeek"
          type="date"
          label="Any day of the week"
          value={values.dayInWeek}
          problem={problems.dayInWeek}
        />
        <RadioField
          form="pin"
          name="decision"
          label="Decision"
          value={values.decision}
          choices={[
            { value: 'pinned', words: 'Make it that week' },
            { value: 'ruled-out', words: 'Not that week' },
          ]}
          problem={problems.decision}
        />
        <InputField
          form="pin"
          name="batches"
          label="Batches"
          hint="Only if it is made that week."
          value={values.batches}
          inputMode="numeric"
          width="short"
          problem={problems.batches}
        />
        <p>
          <Button weight="main">Save</Button>
        </p>
      </KitchenForm>
    </details>
  </Part>
);
