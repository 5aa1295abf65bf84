import { counted } from '../../../shared/counting.ts';
import type { batchResultForm } from '../../../shared/schemas/canning-session.ts';
import type { FormValues } from '../../../shared/schemas/form-fields.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { CheckField, type FormState, InputField, SelectField } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
import { ScheduleLarge, type ScheduleProps } from './process-card.tsx';

/** One tick says that the printed pressure was held. */
export type WriteDownForm = FormState<
  FormValues<typeof batchResultForm> & Readonly<Record<'psiHeld', boolean>>
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
    /** What the height of the kitchen is typed in. */
    readonly altitudeUnit: 'ft' | 'm';
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
  readonly form: WriteDownForm;
  readonly action: string;
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
    <PostForm action={props.action} form={props.form} label="What came out">
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

const Jars = ({ form, asks, jarKinds, units }: WriteDownProps) => (
  <div class="form-row">
    <InputField
      form={form}
      name="units"
      label="How many came out"
      inputMode="decimal"
      width="short"
      unit={units}
    />
    {asks.jars ? <SelectField form={form} name="jarKind" label="In which jar" choices={jarKinds} /> : null}
    <InputField form={form} name="batches" label="From how many batches" inputMode="numeric" width="short" />
  </div>
);

const Evidence = ({ form, asks, schedule }: WriteDownProps) => (
  <fieldset class="evidence">
    <legend>How it was processed</legend>
    {schedule === null ? null : <ScheduleLarge schedule={schedule} folded />}
    <div class="form-row">
      <InputField
        form={form}
        name="minutesRun"
        label="Minutes without a break"
        hint="Of the load that ran shortest."
        inputMode="numeric"
        width="short"
        unit="min"
      />
      {asks.psiHeld === null ? null : <CheckField form={form} name="psiHeld" label={asks.psiHeld} />}
      {asks.psi === null ? null : (
        <InputField
          form={form}
          name="psi"
          label={asks.psiHeld === null ? 'Pressure held' : 'Or the lowest it stood at'}
          hint={asks.psi}
          inputMode="decimal"
          width="short"
          unit="psi"
        />
      )}
      <InputField
        form={form}
        name="altitudeFt"
        label="Altitude of the kitchen it was done in"
        inputMode="decimal"
        width="short"
        unit={asks.altitudeUnit}
      />
      <InputField form={form} name="doneBy" label="Who watched the canner" />
    </div>
    {asks.acid ? (
      <CheckField form={form} name="acidTicked" label="Acid went into every jar before it was closed" />
    ) : null}
  </fieldset>
);

const folded = ['otherUnits', 'otherKind', 'byProduct', 'minutesTaken', 'note'] as const;

/** What most batches have nothing to say of. */
const Rest = ({ form, asks, learnt, jarKinds }: WriteDownProps) => (
  <details open={folded.some((name) => form.problems[name] !== undefined)}>
    <summary>Another jar, what was left over, hands-on time, a note</summary>
    {asks.jars ? (
      <div class="form-row">
        <InputField
          form={form}
          name="otherUnits"
          label="And in another jar"
          inputMode="numeric"
          width="short"
        />
        <SelectField form={form} name="otherKind" label="Which" choices={jarKinds} />
      </div>
    ) : null}
    <div class="form-row">
      {asks.byProduct === null ? null : (
        <InputField
          form={form}
          name="byProduct"
          label={asks.byProduct.label}
          hint={`Keeps ${counted(asks.byProduct.days, 'day')} cold.`}
          inputMode="decimal"
          width="short"
          unit={asks.byProduct.unit}
        />
      )}
      <InputField
        form={form}
        name="minutesTaken"
        label="Hands-on time it really took, all batches"
        inputMode="numeric"
        width="short"
        unit="min"
      />
    </div>
    <InputField form={form} name="note" label="Note" width="full" />
    <p class="hint">{learnt}</p>
  </details>
);
