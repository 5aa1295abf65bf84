import { Button } from '../../parts/button.tsx';
import { type FieldProblems, type FormKeys, InputField, PostForm } from '../../parts/form.tsx';

/** From which day on what is eaten counts, and the word that says it for everything at once. */
export interface RecordedSinceProps {
  readonly keys: FormKeys;
  /** "Each food counts from the first jar you wrote down when it happened." */
  readonly line: string;
  readonly since: string;
  readonly problems: FieldProblems;
}

export const RecordedSince = ({ keys, line, since, problems }: RecordedSinceProps) => (
  <section id="recorded-since" aria-label="Since when it counts">
    <details open={Object.keys(problems).length > 0}>
      <summary>Since when you write down what you eat</summary>
      <p>{line}</p>
      <PostForm
        action="/targets/recorded-since"
        keys={keys}
        problems={problems}
        label="Since when you write down what you eat"
      >
        <InputField
          form="recorded-since"
          name="since"
          type="date"
          label="We have recorded since"
          hint="Weeks before it don’t count. Leave it blank and each food counts from the first thing you wrote down about it at the time."
          value={since}
          problem={problems.since}
        />
        <p>
          <Button weight="main">Save the day</Button>
        </p>
      </PostForm>
    </details>
  </section>
);
