import { Button } from '../../parts/button.tsx';
import { InputField } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { type FormState, hasProblems } from './form-state.ts';
import { KitchenForm, type Said } from './kitchen-form.tsx';

export type SeasonFundValues = Readonly<Record<'balance' | 'weekly', string>>;

/** Money set aside for the pantry, week by week. */
export const SeasonFundForm = ({ keys, values, problems, said }: FormState<SeasonFundValues> & Said) => (
  <Part
    id="fund"
    title="Season fund"
    said={said}
    folded={{ words: 'What is in it, and what you set aside', open: hasProblems({ problems }) }}
    line="Set aside a little every week; what canning and buying spend comes out of it."
  >
    <KitchenForm part="fund" action="/kitchen/fund" keys={keys} problems={problems} label="Season fund">
      <div class="form-row">
        <InputField
          form="fund"
          name="balance"
          label="In the fund today"
          value={values.balance}
          inputMode="decimal"
          width="short"
          money
          problem={problems.balance}
        />
        <InputField
          form="fund"
          name="weekly"
          label="Set aside"
          value={values.weekly}
          inputMode="decimal"
          width="short"
          money="a week"
          problem={problems.weekly}
        />
        <Button weight="main">Save</Button>
      </div>
    </KitchenForm>
  </Part>
);
