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

/** Where the household gardens, and how this year runs: what the guessed dates go by. */
export interface GroundProps {
  /** "For Boulder, Colorado (5,484 ft): last freeze about May 4, first about Oct 6." */
  readonly line: string;
  /** "12 crops have dates we guessed, 3 have your own." */
  readonly count: string;
  readonly keys: FormKeys;
  readonly values: GroundValues;
  /** What the typed town may be, or what is near it. */
  readonly stations: readonly Choice[];
  readonly problems: FieldProblems;
  readonly year: {
    readonly number: number;
    readonly keys: FormKeys;
    readonly value: string;
    readonly choices: readonly Choice[];
  };
}

export type GroundValues = Readonly<
  Record<'town' | 'station' | 'lastFrost' | 'firstFrost' | 'strawberriesFrom', string>
>;

export const GroundPart = (props: GroundProps) => (
  <section class="part ground-part" id="ground" aria-label="Where you grow">
    <p>
      {props.line} <span class="quiet">{props.count}</span>
    </p>
    <details open={Object.keys(props.problems).length > 0}>
      <summary>{`How ${props.year.number} runs, where you grow, and frosts`}</summary>
      <YearForm {...props.year} />
      <GroundForm {...props} />
    </details>
  </section>
);

const YearForm = ({ number, keys, value, choices }: GroundProps['year']) => (
  <PostForm class="inline-form" action="/harvest-year" keys={keys} label={`How ${number} runs`}>
    <div class="form-row">
      <SelectField form="harvest-year" name="days" label={`${number} runs`} value={value} choices={choices} />
      <Button weight="main">Save</Button>
    </div>
  </PostForm>
);

const GroundForm = ({ keys, values, stations, problems }: GroundProps) => (
  <PostForm action="/harvest-ground" keys={keys} problems={problems} label="Where you grow">
    <InputField
      form="ground"
      name="town"
      label="Nearest town, with its state"
      hint="“Boulder, CO”, or the state alone. Dates we guessed move with it; your own stay."
      value={values.town}
      problem={problems.town}
    />
    {stations.length === 0 ? null : (
      <RadioField
        form="ground"
        name="station"
        label="Weather station"
        value={values.station}
        choices={stations}
        problem={problems.station}
      />
    )}
    <div class="form-row">
      <InputField
        form="ground"
        name="lastFrost"
        type="date"
        label="Your last frost of spring, about"
        hint="Of any year. It replaces the station’s."
        value={values.lastFrost}
        problem={problems.lastFrost}
      />
      <InputField
        form="ground"
        name="firstFrost"
        type="date"
        label="Your first frost of fall, about"
        value={values.firstFrost}
        problem={problems.firstFrost}
      />
      <InputField
        form="ground"
        name="strawberriesFrom"
        type="date"
        label="Strawberries begin here, about"
        hint="Moves every garden crop by as many days."
        value={values.strawberriesFrom}
        problem={problems.strawberriesFrom}
      />
    </div>
    <p>
      <Button weight="main">Save where you grow</Button>
    </p>
  </PostForm>
);
