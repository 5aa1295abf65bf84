import { Button } from '../../parts/button.tsx';
import { type FieldProblems, type FormKeys, InputField, PostForm } from '../../parts/form.tsx';

/** Items that stand in for each other: a total, a least variety, a largest share. */
export interface GroupTargetProps {
  readonly groupId: string;
  readonly name: string;
  readonly members: string;
  /** "The targets of its items come to 64 half-pints: 4 more than wanted." */
  readonly stands: string;
  readonly unit: string;
  readonly keys: FormKeys;
  readonly values: GroupValues;
  readonly problems: FieldProblems;
}

export interface GroupValues {
  readonly total: string;
  readonly leastKinds: string;
  /** Percent, as typed. */
  readonly largestShare: string;
}

export const GroupTarget = ({
  groupId,
  name,
  members,
  stands,
  unit,
  keys,
  values,
  problems,
}: GroupTargetProps) => {
  const form = `group-${groupId}`;
  return (
    <article class="group-target" id={form}>
      <h3>{name}</h3>
      <p>{stands}</p>
      <details open={Object.keys(problems).length > 0}>
        <summary>
          Change how much<span class="heard-only">{`: ${name}`}</span>
        </summary>
        <p class="quiet">{members}</p>
        <PostForm
          action={`/targets/groups/${groupId}`}
          keys={keys}
          replaces={`#${form}`}
          problems={problems}
          label={`Target of ${name}`}
        >
          <div class="form-row">
            <InputField
              form={form}
              name="total"
              label="In all, a year"
              value={values.total}
              inputMode="decimal"
              width="short"
              unit={unit}
              problem={problems.total}
            />
            <InputField
              form={form}
              name="leastKinds"
              label="At least"
              value={values.leastKinds}
              inputMode="numeric"
              width="short"
              unit="kinds"
              problem={problems.leastKinds}
            />
            <InputField
              form={form}
              name="largestShare"
              label="No kind above"
              value={values.largestShare}
              inputMode="decimal"
              width="short"
              unit="%"
              problem={problems.largestShare}
            />
            <Button weight="main">Save</Button>
          </div>
        </PostForm>
      </details>
    </article>
  );
};
