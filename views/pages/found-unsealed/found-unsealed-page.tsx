import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import {
  type Choice,
  type FieldProblems,
  type FormKeys,
  InputField,
  PostForm,
  RadioField,
  SelectField,
} from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface HandlingProps {
  readonly title: string;
  readonly steps: readonly string[];
  readonly source: string;
}

export interface FoundUnsealedPageProps {
  readonly frame: Frame;
  readonly handling: readonly HandlingProps[];
  readonly form: {
    readonly keys: FormKeys;
    readonly lots: readonly Choice[];
    readonly values: { readonly lotId: string; readonly units: string; readonly state: string };
    readonly problems: FieldProblems;
  };
}

const states: readonly Choice[] = [
  { value: 'open', words: 'Open, leaking, or the lid is loose' },
  { value: 'swollen', words: 'Swollen, but still sealed' },
];

/** A jar found unsealed on the shelf, long after its canning day: never tasted, never processed again. */
export const FoundUnsealedPage = ({ frame, handling, form }: FoundUnsealedPageProps) => (
  <Page
    frame={frame}
    title="Found unsealed"
    section="safety"
    about="What to do with a jar found swollen, leaking or unsealed on the shelf."
  >
    <p class="page-back">
      <a href="/safety">{pageNames.safety}</a>
    </p>
    <h1 class="page-title">Found unsealed on the shelf</h1>
    <p class="page-line">
      Do not taste it, and do not process it again: that is only for the first 24 hours after the canning day.
    </p>
    {handling.map(({ title, steps, source }) => (
      <Part key={title} title={title}>
        <ol class="numbered">
          {steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
        <p class="quiet small">{source}</p>
      </Part>
    ))}
    <Part
      title="Write it off"
      id="write-off"
      line="The jar leaves the shelf, and the batch is shown so that you look at its others."
    >
      <PostForm action="/found-unsealed" keys={form.keys} problems={form.problems} label="Found unsealed">
        <SelectField
          form="unsealed"
          name="lotId"
          label="Which batch"
          value={form.values.lotId}
          choices={form.lots}
          problem={form.problems.lotId}
        />
        <RadioField
          form="unsealed"
          name="state"
          label="How it was found"
          value={form.values.state}
          choices={states}
          problem={form.problems.state}
        />
        <InputField
          form="unsealed"
          name="units"
          label="How many jars"
          value={form.values.units}
          inputMode="numeric"
          width="short"
          problem={form.problems.units}
        />
        <p>
          <Button weight="main">Discard, without tasting</Button>
        </p>
      </PostForm>
    </Part>
  </Page>
);
