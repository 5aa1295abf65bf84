import type { Family } from '../../../shared/family.ts';
import { Button } from '../../parts/button.tsx';
import { type FormState, InputField, SelectField } from '../../parts/fields.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';
import type { LatenessForm } from './ground-part.tsx';
import { SeasonStrip, type SeasonStripProps } from './season-strip.tsx';

/** One source of one crop: when, how much, at what price, and what wants it. */
export interface SourceRowProps {
  readonly sourceId: string;
  readonly name: string;
  /** Its hue; null for what no recipe uses yet. */
  readonly family: Family | null;
  readonly isOpen: boolean;
  /** "until Sep 10", "from Jul 20" */
  readonly brief: string;
  /** "Peaches" */
  readonly crop: string;
  /** "own garden, 2 plants" */
  readonly kind: string;
  /** "Open now until Sep 10." */
  readonly state: string;
  readonly amount: string;
  readonly price: string;
  readonly poorYear: string;
  readonly windows: readonly SourceWindowLine[];
  /** Where guessed dates come from; null where they are the household's own. */
  readonly guess: string | null;
  readonly yearOf: CropYearProps;
  readonly strip: SeasonStripProps | null;
  /** "The plan takes 63 lb: 42 lb in the week of Aug 16, 21 lb in the week of Aug 23." */
  readonly wanted: string;
  readonly recipes: readonly string[];
  /** Null for a market, where nobody picks. */
  readonly picked: FirstPickedProps | null;
}

export interface SourceWindowLine {
  readonly year: string;
  readonly words: string;
}

/** How this year runs for one crop. */
export interface CropYearProps {
  readonly number: number;
  readonly lateness: { readonly form: LatenessForm; readonly choices: readonly Choice[] };
  /** Whether nothing grew this year; null where no dates are written down. */
  readonly failure: { readonly keys: FormKeys; readonly failed: boolean } | null;
}

export interface FirstPickedProps {
  readonly form: FormState<Readonly<Record<'date', string>>>;
  /** "First picked Aug 2: this year runs 5 days early." Null before the first picking. */
  readonly said: string | null;
}

/** One source as a row on the shared axis; opened, what is known of it and what can be said about it. */
export const SourceRow = (props: SourceRowProps) => (
  <details
    class={props.family === null ? 'source-row' : `source-row family-${props.family}`}
    id={`source-${props.sourceId}`}
    open={props.isOpen}
  >
    <summary>
      <h3>{props.name}</h3>
      <span class="source-state">
        {props.brief}
        {props.guess === null ? null : <span class="quiet">, our guess</span>}
      </span>
      {props.strip === null ? null : <SeasonStrip {...props.strip} />}
    </summary>
    <div class="source-more">
      <p class="source-kind quiet">
        {`${props.crop}, ${props.kind}.`} {props.state}{' '}
        <a href={`/harvest/${props.sourceId}`}>
          Change<span class="heard-only">{`: ${props.name}`}</span>
        </a>
      </p>
      <p>{props.wanted}</p>
      {props.picked === null ? null : (
        <FirstPicked sourceId={props.sourceId} name={props.name} {...props.picked} />
      )}
      <SourceFacts {...props} />
      <CropYear sourceId={props.sourceId} name={props.name} {...props.yearOf} />
    </div>
  </details>
);

const SourceFacts = (props: SourceRowProps) => (
  <dl class="source-facts">
    {props.windows.map((window) => (
      <div key={window.year}>
        <dt>{window.year}</dt>
        <dd>{window.words}</dd>
      </div>
    ))}
    <div>
      <dt>gives</dt>
      <dd>{props.amount}</dd>
    </div>
    <div>
      <dt>price</dt>
      <dd>{props.price}</dd>
    </div>
    <div>
      <dt>poor years</dt>
      <dd>{props.poorYear}</dd>
    </div>
    {props.guess === null ? null : (
      <div>
        <dt>dates from</dt>
        <dd>{props.guess}</dd>
      </div>
    )}
    {props.recipes.length === 0 ? null : (
      <div>
        <dt>goes into</dt>
        <dd>{props.recipes.join('; ')}</dd>
      </div>
    )}
  </dl>
);

const CropYear = ({
  sourceId,
  name,
  number,
  lateness,
  failure,
}: CropYearProps & { sourceId: string; name: string }) => (
  <>
    <PostForm
      class="inline-form"
      action={`/harvest/${sourceId}/lateness`}
      form={lateness.form}
      label={`How ${number} runs for it: ${name}`}
    >
      <div class="form-row">
        <SelectField
          form={lateness.form}
          name="days"
          label={`This crop in ${number} runs`}
          choices={lateness.choices}
        />
        <Button weight="main">Save</Button>
      </div>
    </PostForm>
    {failure === null ? null : (
      <PostForm
        class="inline-form"
        action={`/harvest/${sourceId}/failure`}
        keys={failure.keys}
        label={`Failed: ${name}`}
      >
        <Button weight="quiet" name="failed" value={failure.failed ? 'no' : 'yes'}>
          {failure.failed ? `It did not fail in ${number} after all` : `Failed in ${number}: nothing to pick`}
        </Button>
      </PostForm>
    )}
    {failure === null || failure.failed ? null : (
      <PostForm
        class="inline-form"
        action={`/harvest/${sourceId}/without`}
        keys={failure.keys}
        label={`The year without it: ${name}`}
      >
        <Button weight="quiet">What if you get nothing?</Button>
      </PostForm>
    )}
  </>
);

const FirstPicked = ({
  sourceId,
  name,
  form,
  said,
}: FirstPickedProps & { sourceId: string; name: string }) => (
  <PostForm
    class="first-picked"
    action={`/harvest/${sourceId}/first-picking`}
    form={form}
    replaces={`#source-${sourceId}`}
    label={`First picking: ${name}`}
  >
    {said === null ? null : <p>{said}</p>}
    <div class="form-row">
      <Button name="day" value="today">
        {said === null ? 'First picked today' : 'Picked first today instead'}
      </Button>
      <details open={form.problems.date !== undefined}>
        <summary>On another day</summary>
        <div class="form-row">
          <InputField form={form} name="date" type="date" label="First picked on" />
          <Button weight="main" name="day" value="other">
            Save
          </Button>
          {said === null ? null : (
            <Button weight="quiet" name="day" value="none">
              Not picked yet after all
            </Button>
          )}
        </div>
      </details>
    </div>
  </PostForm>
);
