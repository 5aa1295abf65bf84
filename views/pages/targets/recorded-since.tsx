import type { recordedSinceForm } from '../../../shared/schemas/recorded-since.ts';
import { Button } from '../../parts/button.tsx';
import { hasProblems, InputField, type StateOf } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';

/** From which day on what is eaten counts, and the word that says it for everything at once. */
export interface RecordedSinceProps {
  readonly form: StateOf<typeof recordedSinceForm>;
  /** "Each food counts from the first jar you wrote down when it happened." */
  readonly line: string;
}

export const RecordedSince = ({ form, line }: RecordedSinceProps) => (
  <section id="recorded-since" aria-label="Since when it counts">
    <details open={hasProblems(form)}>
      <summary>Since when you write down what you eat</summary>
      <p>{line}</p>
      <PostForm action="/targets/recorded-since" form={form} label="Since when you write down what you eat">
        <InputField
          form={form}
          name="since"
          type="date"
          label="We have recorded since"
          hint="Weeks before it don’t count. Leave it blank and each food counts from the first thing you wrote down about it at the time."
        />
        <p>
          <Button weight="main">Save the day</Button>
        </p>
      </PostForm>
    </details>
  </section>
);
