import { counted } from '../../../shared/counting.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import {
  CheckField,
  type Choice,
  type FieldProblems,
  type FormKeys,
  InputField,
  PostForm,
  SelectField,
} from '../../parts/form.tsx';
import { ScheduleLarge, type ScheduleProps } from './process-card.tsx';

export type WriteDownValues = Readonly<
  Record<
    | 'batches'
    | 'units'
    | 'jarKind'
    | 'otherUnits'
    | 'otherKind'
    | 'minutesRun'
    | 'psi'
    | 'psiHeld'
    | 'altitudeFt'
    | 'acidTicked'
    | 'doneBy'
    | 'minutesTaken'
    | 'byProduct'
    | 'note',
    string
  >
>;

export interface WriteDownProps {
  readonly frame: Frame;
  readonly back: string;
  readonly title: string;
  readonly line: string;
  /** How what was written down before changed what the plan expects. */
  readonly learnt: string;
  /** What of other batches' left-overs is used up with it; null for nothing. */
  readonly taken: string | null;
  /** `pints`, `bags` */
  readonly units: string;
  readonly schedule: ScheduleProps | null;
  /** Why nothing of this may be shelved; empty when it may. */
  readonly refusal: readonly string[];
  readonly asks: {
    readonly jars: boolean;
    /** Whether it was processed in a canner. */
    readonly evidence: boolean;
    /** `11 psi or more.`; null outside the pressure canner. */
    readonly psi: string | null;
    /** What one tick says instead of a figure; null where the pressure is not settled. */
    readonly psiHeld: string | null;
    readonly acid: boolean;
    readonly byProduct: { readonly label: string; readonly unit: string; readonly days: number } | null;
  };
  readonly jarKinds: readonly Choice[];
  readonly values: WriteDownValues;
  readonly problems: FieldProblems;
  readonly action: string;
  readonly keys: FormKeys;
}

/** What really came out of a batch, and how it was processed. */
export const WriteDownPage = (props: WriteDownProps) => (
  <Page
    frame={props.frame}
    title={`${props.title}: what came out`}
    section="canning"
    about="Write down what came out of a batch and how it was processed."
  >
    <p class="page-back">
      <a href={props.back}>Canning day</a>
    </p>
    <h1 class="page-title">{`${props.title}: what came out`}</h1>
    <p class="page-line">{props.line}</p>
    {props.taken === null ? null : <p>{props.taken}</p>}
    {props.refusal.map((words) => (
      <p key={words} class="banner banner-problem" role="alert">
        {words}
      </p>
    ))}
    <PostForm action={props.action} keys={props.keys} problems={props.problems} label="What came out">
      <Jars {...props} />
      {props.asks.evidence ? <Evidence {...props} /> : null}
      <p>
        <Button weight="main" big>
          Put on the shelf
        </Button>
      </p>
      <Rest {...props} />
    </PostForm>
  </Page>
);

const field = 'result';

const Jars = ({ values, problems, asks, jarKinds, units }: WriteDownProps) => (
  <div class="form-row">
    <InputField
      form={field}
      name="units"
      label="How many came out"
      value={values.units}
      inputMode="decimal"
      width="short"
      unit={units}
      problem={problems.units}
    />
    {asks.jars ? (
      <SelectField
        form={field}
        name="jarKind"
        label="In which jar"
        value={values.jarKind}
        choices={jarKinds}
        problem={problems.jarKind}
      />
    ) : null}
    <InputField
      form={field}
      name="batches"
      label="From how many batches"
      value={values.batches}
      inputMode="numeric"
      width="short"
      problem={problems.batches}
    />
  </div>
);

const Evidence = ({ values, problems, asks, schedule }: WriteDownProps) => (
  <fieldset class="evidence">
    <legend>How it was processed</legend>
    {schedule === null ? null : <ScheduleLarge schedule={schedule} folded />}
    <div class="form-row">
      <InputField
        form={field}
        name="minutesRun"
        label="Minutes without a break"
        hint="Of the load that ran shortest."
        value={values.minutesRun}
        inputMode="numeric"
        width="short"
        unit="min"
        problem={problems.minutesRun}
      />
      {asks.psiHeld === null ? null : (
        <CheckField form={field} name="psiHeld" label={asks.psiHeld} checked={values.psiHeld !== ''} />
      )}
      {asks.psi === null ? null : (
        <InputField
          form={field}
          name="psi"
          label={asks.psiHeld === null ? 'Pressure held' : 'Or the lowest it stood at'}
          hint={asks.psi}
          value={values.psi}
          inputMode="decimal"
          width="short"
          unit="psi"
          problem={problems.psi}
        />
      )}
      <InputField
        form={field}
        name="altitudeFt"
        label="Altitude of the kitchen it was done in"
        value={values.altitudeFt}
        inputMode="decimal"
        width="short"
        unit="ft"
        problem={problems.altitudeFt}
      />
      <InputField
        form={field}
        name="doneBy"
        label="Who watched the canner"
        value={values.doneBy}
        problem={problems.doneBy}
      />
    </div>
    {asks.acid ? (
      <CheckField
        form={field}
        name="acidTicked"
        label="Acid went into every jar before it was closed"
        checked={values.acidTicked !== '' && values.acidTicked !== 'no'}
        problem={problems.acidTicked}
      />
    ) : null}
  </fieldset>
);

const folded = ['otherUnits', 'otherKind', 'byProduct', 'minutesTaken', 'note'] as const;

/** What most batches have nothing to say of. */
const Rest = ({ values, problems, asks, learnt, jarKinds }: WriteDownProps) => (
  <details open={folded.some((name) => problems[name] !== undefined)}>
    <summary>Another jar, what was left over, hands-on time, a note</summary>
    {asks.jars ? (
      <div class="form-row">
        <InputField
          form={field}
          name="otherUnits"
          label="And in another jar"
          value={values.otherUnits}
          inputMode="numeric"
          width="short"
          problem={problems.otherUnits}
        />
        <SelectField
          form={field}
          name="otherKind"
          label="Which"
          value={values.otherKind}
          choices={jarKinds}
          problem={problems.otherKind}
        />
      </div>
    ) : null}
    <div class="form-row">
      {asks.byProduct === null ? null : (
        <InputField
          form={field}
          name="byProduct"
          label={asks.byProduct.label}
          hint={`Keeps ${counted(asks.byProduct.days, 'day')} cold.`}
          value={values.byProduct}
          inputMode="decimal"
          width="short"
          unit={asks.byProduct.unit}
          problem={problems.byProduct}
        />
      )}
      <InputField
        form={field}
        name="minutesTaken"
        label="Hands-on time it really took, all batches"
        value={values.minutesTaken}
        inputMode="numeric"
        width="short"
        unit="min"
        problem={problems.minutesTaken}
      />
    </div>
    <InputField
      form={field}
      name="note"
      label="Note"
      value={values.note}
      width="full"
      problem={problems.note}
    />
    <p class="hint">{learnt}</p>
  </details>
);
