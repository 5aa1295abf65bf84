import type { groupForm } from '../../../shared/schemas/item-group.ts';
import { Button } from '../../parts/button.tsx';
import { hasProblems, InputField, type StateOf } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';

/** Items that stand in for each other: a total, a least variety, a largest share. */
export interface GroupTargetProps {
  readonly groupId: string;
  readonly name: string;
  readonly members: string;
  /** "The targets of its items come to 64 half-pints: 4 more than wanted." */
  readonly stands: string;
  readonly unit: string;
  readonly form: StateOf<typeof groupForm, 'groupId'>;
}

export const GroupTarget = ({ groupId, name, members, stands, unit, form }: GroupTargetProps) => (
  <article class="group-target" id={form.formId}>
    <h3>{name}</h3>
    <p>{stands}</p>
    <details open={hasProblems(form)}>
      <summary>
        Change how much<span class="heard-only">{`: ${name}`}</span>
      </summary>
      <p class="quiet">{members}</p>
      <PostForm
        action={`/targets/groups/${groupId}`}
        form={form}
        replaces={`#${form.formId}`}
        label={`Target of ${name}`}
      >
        <div class="form-row">
          <InputField
            form={form}
            name="total"
            label="In all, a year"
            inputMode="decimal"
            width="short"
            unit={unit}
          />
          <InputField
            form={form}
            name="leastKinds"
            label="At least"
            inputMode="numeric"
            width="short"
            unit="kinds"
          />
          <InputField
            form={form}
            name="largestShare"
            label="No kind above"
            inputMode="decimal"
            width="short"
            unit="%"
          />
          <Button weight="main">Save</Button>
        </div>
      </PostForm>
    </details>
  </article>
);
