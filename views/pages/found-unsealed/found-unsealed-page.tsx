import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormState, InputField, RadioField, SelectField } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
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
  readonly form: FormState<Readonly<Record<'lotId' | 'units' | 'state', string>>>;
  readonly lots: readonly Choice[];
}

const states: readonly Choice[] = [
  { value: 'open', words: 'Open, leaking, or the lid is loose' },
  { value: 'swollen', words: 'Swollen, but still sealed' },
];

/** A jar found unsealed on the shelf, long after its canning day: never tasted, never processed again. */
export const FoundUnsealedPage = ({ frame, handling, form, lots }: FoundUnsealedPageProps) => (
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
      <PostForm action="/found-unsealed" form={form} label="Found unsealed">
        <SelectField form={form} name="lotId" label="Which batch" choices={lots} />
        <RadioField form={form} name="state" label="How it was found" choices={states} />
        <InputField form={form} name="units" label="How many jars" inputMode="numeric" width="short" />
        <p>
          <Button weight="main">Discard, without tasting</Button>
        </p>
      </PostForm>
    </Part>
  </Page>
);
