import { counted } from '../../../shared/counting.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormFields, InputField, SelectField } from '../../parts/fields.tsx';
import type { Choice } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';
import {
  type CautionLine,
  Cautions,
  type HelpProps,
  HelpToFind,
  ScheduleLarge,
  type ScheduleProps,
  type SourceLine,
  Sources,
} from '../canning-day/process-card.tsx';

export interface RefusalLine {
  readonly key: string;
  readonly rule: string;
  readonly source: string;
  readonly instead: string;
}

export interface ProcessAnswer {
  /** `Applesauce: sauce, hot pack, quart jars` */
  readonly title: string;
  /** Null where there is none, or where one of several is still to be chosen. */
  readonly schedule: ScheduleProps | null;
  /** Printed alternatives of time and pressure, each with the address that chooses it; empty where one is printed. */
  readonly choices: readonly {
    readonly key: string;
    readonly words: string;
    readonly href: string;
    readonly isChosen: boolean;
  }[];
  readonly refusals: readonly RefusalLine[];
  /** What must be so for the row to hold: form of the food, pack, altitude, acid, stages before, canner. */
  readonly onlyIf: readonly string[];
  readonly cautions: readonly CautionLine[];
  readonly sources: readonly SourceLine[];
  /** Why water boils cooler up there; for explanation only. */
  readonly boiling: string | null;
}

export interface ProcessTimesPageProps {
  readonly frame: Frame;
  readonly form: FormFields<
    Readonly<
      Record<
        | 'food'
        | 'other'
        | 'style'
        | 'pack'
        | 'jar'
        | 'method'
        | 'gauge'
        | 'gaugeCheckedOn'
        | 'altitude'
        | 'unit'
        | 'condition',
        string
      >
    >
  >;
  readonly foods: readonly Choice[];
  readonly styles: readonly Choice[];
  readonly packs: readonly Choice[];
  readonly jars: readonly Choice[];
  readonly methods: readonly Choice[];
  readonly gauges: readonly Choice[];
  readonly units: readonly Choice[];
  readonly conditions: readonly Choice[];
  readonly answer: ProcessAnswer | null;
  readonly help: readonly HelpProps[];
  readonly never: readonly RefusalLine[];
}

/** One published processing time, or the rule against it. */
export const ProcessTimesPage = (props: ProcessTimesPageProps) => (
  <Page
    frame={props.frame}
    title="Processing times"
    section="safety"
    about="Look up a published processing time for a food, jar, canner and altitude."
    moreCss={props.frame.assets.canningCss}
  >
    <p class="page-back">
      <a href="/safety">{pageNames.safety}</a>
    </p>
    <h1 class="page-title">Processing times</h1>
    <p class="page-line">One published row for this food, jar, canner and altitude, or why there is none.</p>
    <LookUp {...props} />
    {props.answer === null ? null : <Answer answer={props.answer} />}
    <HelpToFind help={props.help} />
    <Part
      title="Never canned at home"
      id="never"
      line="No tested process stands behind these, however they are processed."
    >
      <details>
        <summary>{`${counted(props.never.length, 'kind')} of food, each with its rule`}</summary>
        <Refusals refusals={props.never} />
      </details>
    </Part>
  </Page>
);

const LookUp = ({ form, ...choices }: ProcessTimesPageProps) => (
  <form method="get" action="/process-times" class="form" aria-label="Look up a processing time">
    <div class="form-row">
      <SelectField form={form} name="food" label="Food" choices={choices.foods} />
      <InputField form={form} name="other" label="Or another food" hint="In your own words." />
    </div>
    <div class="form-row">
      <SelectField form={form} name="style" label="Style" choices={choices.styles} />
      <SelectField form={form} name="pack" label="Pack" choices={choices.packs} />
    </div>
    <div class="form-row">
      <SelectField form={form} name="jar" label="Jar" choices={choices.jars} />
      <SelectField form={form} name="method" label="Canner" choices={choices.methods} />
      <SelectField form={form} name="gauge" label="Gauge" choices={choices.gauges} />
      <InputField form={form} name="gaugeCheckedOn" label="Dial gauge last checked" type="date" />
    </div>
    <div class="form-row">
      <InputField
        form={form}
        name="altitude"
        label="Altitude of the kitchen"
        inputMode="decimal"
        width="short"
      />
      <SelectField form={form} name="unit" label="In" choices={choices.units} />
      <SelectField
        form={form}
        name="condition"
        label="Anything about the food"
        choices={choices.conditions}
      />
    </div>
    <p>
      <Button weight="main">Look it up</Button>
    </p>
  </form>
);

const Answer = ({ answer }: { answer: ProcessAnswer }) => (
  <Part title={answer.title} id="answer">
    {answer.schedule === null ? null : <ScheduleLarge schedule={answer.schedule} />}
    {answer.choices.length === 0 ? null : (
      <Alternatives choices={answer.choices} isOpen={answer.schedule === null} />
    )}
    {answer.refusals.length === 0 ? null : (
      <div class="no-time" role="note">
        <p>
          <strong>No time can be given.</strong>
        </p>
        <Refusals refusals={answer.refusals} />
      </div>
    )}
    {answer.onlyIf.map((words) => (
      <p key={words}>
        <strong>Only if: </strong>
        {words}
      </p>
    ))}
    {answer.boiling === null ? null : <p class="part-words quiet">{answer.boiling}</p>}
    <h3 class="cautions-title">Safety notes</h3>
    <Cautions cautions={answer.cautions} />
    <Sources sources={answer.sources} />
  </Part>
);

const Alternatives = ({ choices, isOpen }: { choices: ProcessAnswer['choices']; isOpen: boolean }) => (
  <nav class="choose-schedule" aria-label="Printed schedules">
    <p>
      <strong>
        {isOpen
          ? `The table prints ${choices.length} schedules for this jar. Which one do you follow?`
          : 'Printed for this jar:'}
      </strong>
    </p>
    <p class="hint">Any of them, whole: its minutes at its own pressure, never a mixture.</p>
    <ul class="page-actions">
      {choices.map(({ key, words, href, isChosen }) => (
        <li key={key}>
          <a
            class={`button button-${isChosen ? 'main' : 'plain'}`}
            href={href}
            aria-current={isChosen ? 'true' : undefined}
          >
            {words}
          </a>
        </li>
      ))}
    </ul>
  </nav>
);

const Refusals = ({ refusals }: { refusals: readonly RefusalLine[] }) => (
  <ul class="plain-list">
    {refusals.map(({ key, rule, source, instead }) => (
      <li key={key}>
        <p>{rule}.</p>
        <p>
          <strong>Instead: </strong>
          {instead}
        </p>
        <p class="quiet small">Source: {source}</p>
      </li>
    ))}
  </ul>
);
