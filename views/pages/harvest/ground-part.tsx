import type { groundForm, latenessForm } from '../../../shared/schemas/ground.ts';
import { Button } from '../../parts/button.tsx';
import { hasProblems, InputField, RadioField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';

/** Where the household gardens, and how this year runs: what the guessed dates go by. */
export interface GroundProps {
  /** "For Boulder, Colorado (5,484 ft): last freeze about May 4, first about Oct 6." */
  readonly line: string;
  /** "12 crops have dates we guessed, 3 have your own." */
  readonly count: string;
  readonly form: GroundForm;
  /** What the typed town may be, or what is near it. */
  readonly stations: readonly Choice[];
  readonly year: {
    readonly number: number;
    readonly form: LatenessForm;
    readonly choices: readonly Choice[];
  };
}

export type GroundForm = StateOf<typeof groundForm>;
export type LatenessForm = StateOf<typeof latenessForm>;

export const GroundPart = (props: GroundProps) => (
  <section class="part ground-part" id="ground" aria-label="Where you grow">
    <p>
      {props.line} <span class="quiet">{props.count}</span>
    </p>
    <details open={hasProblems(props.form)}>
      <summary>{`How ${props.year.number} runs, where you grow, and frosts`}</summary>
      <YearForm {...props.year} />
      <GroundFields form={props.form} stations={props.stations} />
    </details>
  </section>
);

const YearForm = ({ number, form, choices }: GroundProps['year']) => (
  <PostForm class="inline-form" action="/harvest-year" form={form} label={`How ${number} runs`}>
    <div class="form-row">
      <SelectField form={form} name="days" label={`${number} runs`} choices={choices} />
      <Button weight="main">Save</Button>
    </div>
  </PostForm>
);

const GroundFields = ({ form, stations }: Pick<GroundProps, 'form' | 'stations'>) => (
  <PostForm action="/harvest-ground" form={form} label="Where you grow">
    <InputField
      form={form}
      name="town"
      label="Nearest town, with its state"
      hint="“Boulder, CO”, or the state alone. Dates we guessed move with it; your own stay."
    />
    {stations.length === 0 ? null : (
      <RadioField form={form} name="station" label="Weather station" choices={stations} />
    )}
    <div class="form-row">
      <InputField
        form={form}
        name="lastFrost"
        type="date"
        label="Your last frost of spring, about"
        hint="Of any year. It replaces the station’s."
      />
      <InputField form={form} name="firstFrost" type="date" label="Your first frost of fall, about" />
      <InputField
        form={form}
        name="strawberriesFrom"
        type="date"
        label="Strawberries begin here, about"
        hint="Moves every garden crop by as many days."
      />
    </div>
    <p>
      <Button weight="main">Save where you grow</Button>
    </p>
  </PostForm>
);
