import { Button } from '../../parts/button.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';

/** Printed alternatives of time and pressure, of which a person takes one whole. */
export interface ScheduleChoiceProps {
  readonly action: string;
  readonly keys: FormKeys;
  /** `row-` and the recipe. */
  readonly name: string;
  /** How the day is laid out otherwise; sent along, so that nothing else changes. */
  readonly carried: readonly { readonly name: string; readonly value: string }[];
  /** The row that was chosen; empty until then. */
  readonly value: string;
  readonly choices: readonly Choice[];
  /** Why it stays as it is; null while it may be chosen. */
  readonly settled: string | null;
}

export const ScheduleChoice = ({ choice, of }: { choice: ScheduleChoiceProps; of: string }) => {
  if (choice.settled !== null) return <p class="quiet">{choice.settled}</p>;
  if (choice.value === '') return <Choices choice={choice} of={of} />;
  return (
    <details class="schedule-choice">
      <summary>The table prints other schedules</summary>
      <Choices choice={choice} of={of} />
    </details>
  );
};

const Choices = ({ choice, of }: { choice: ScheduleChoiceProps; of: string }) => (
  <PostForm
    action={choice.action}
    keys={choice.keys}
    class="choose-schedule"
    label={`Which printed schedule, ${of}`}
  >
    <p>
      <strong>
        The table prints {choice.choices.length} schedules for this jar. Which one do you follow?
      </strong>
    </p>
    <p class="hint">Any of them, whole: its minutes at its own pressure, never a mixture.</p>
    {choice.carried.map(({ name, value }) => (
      <input key={name} type="hidden" name={name} value={value} />
    ))}
    <p class="page-actions">
      {choice.choices.map(({ value, words }) => (
        <Button
          key={value}
          name={choice.name}
          value={value}
          weight={value === choice.value ? 'main' : 'plain'}
        >
          {words}
        </Button>
      ))}
    </p>
  </PostForm>
);
