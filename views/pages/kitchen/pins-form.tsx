import { counted } from '../../../shared/counting.ts';
import type { decisionForm } from '../../../shared/schemas/decision.ts';
import { Button } from '../../parts/button.tsx';
import { hasProblems, InputField, RadioField, SelectField, type StateOf } from '../../parts/fields.tsx';
import type { Choice } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { KitchenForm, type Said } from './kitchen-form.tsx';
import { type RemovableLine, RemovableList } from './time-forms.tsx';

export interface PinsProps {
  readonly lines: readonly RemovableLine[];
  readonly recipes: readonly Choice[];
  readonly form: StateOf<typeof decisionForm, 'week', 'dayInWeek'>;
}

/** What the plan may not change: pinned and ruled-out batches. */
export const Pins = ({ lines, recipes, form, said }: PinsProps & Said) => (
  <Part
    id="pins"
    title="Kept in the plan"
    said={said}
    folded={{
      words: lines.length === 0 ? 'Nothing yet' : counted(lines.length, 'decision'),
      open: hasProblems(form),
    }}
    line="What you decided about a recipe and a week; the plan works around it."
  >
    <RemovableList part="pins" lines={lines} none="Nothing is pinned or ruled out." />
    <details class="fold" open={hasProblems(form)}>
      <summary>Pin or rule out</summary>
      <KitchenForm part="pins" action="/kitchen/pins" form={form} label="Pin or rule out">
        <SelectField form={form} name="recipeId" label="Recipe" choices={recipes} />
        <InputField form={form} name="dayInWeek" type="date" label="Any day of the week" />
        <RadioField
          form={form}
          name="decision"
          label="Decision"
          choices={[
            { value: 'pinned', words: 'Make it that week' },
            { value: 'ruled-out', words: 'Not that week' },
          ]}
        />
        <InputField
          form={form}
          name="batches"
          label="Batches"
          hint="Only if it is made that week."
          inputMode="numeric"
          width="short"
        />
        <p>
          <Button weight="main">Save</Button>
        </p>
      </KitchenForm>
    </details>
  </Part>
);
