import type { seasonFundForm } from '../../../shared/schemas/kitchen.ts';
import { Button } from '../../parts/button.tsx';
import { hasProblems, InputField, type StateOf } from '../../parts/fields.tsx';
import { Part } from '../../parts/part.tsx';
import { KitchenForm, type Said } from './kitchen-form.tsx';

export type SeasonFundProps = StateOf<typeof seasonFundForm>;

/** Money set aside for the pantry, week by week. */
export const SeasonFundForm = ({ said, ...form }: SeasonFundProps & Said) => (
  <Part
    id="fund"
    title="Season fund"
    said={said}
    folded={{ words: 'What is in it, and what you set aside', open: hasProblems(form) }}
    line="Set aside a little every week; what canning and buying spend comes out of it."
  >
    <KitchenForm part="fund" action="/kitchen/fund" form={form} label="Season fund">
      <div class="form-row">
        <InputField
          form={form}
          name="balance"
          label="In the fund today"
          inputMode="decimal"
          width="short"
          money
        />
        <InputField
          form={form}
          name="weekly"
          label="Set aside"
          inputMode="decimal"
          width="short"
          money="a week"
        />
        <Button weight="main">Save</Button>
      </div>
    </KitchenForm>
  </Part>
);
