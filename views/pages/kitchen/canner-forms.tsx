import { counted } from '../../../shared/counting.ts';
import type { cannerForm } from '../../../shared/schemas/kitchen.ts';
import { Button } from '../../parts/button.tsx';
import { hasProblems, InputField, RadioField, SelectField, type StateOf } from '../../parts/fields.tsx';
import type { Choice, FormKeys } from '../../parts/form.tsx';
import { GaugeOffFields } from '../../parts/gauge-off-fields.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { KitchenForm, type Said } from './kitchen-form.tsx';

export interface CannerFormProps extends StateOf<typeof cannerForm, 'cannerId', 'size'> {
  /** Null for a canner that is being added. */
  readonly cannerId: string | null;
  /** Sizes as they are sold, with what a load holds. */
  readonly sizes: readonly Choice[];
  readonly title: string;
  /** "Dial gauge checked 200 days ago; good until May 9." */
  readonly state: string | null;
  /** Null for a canner that is being added. */
  readonly retireKeys: FormKeys | null;
}

export interface CannersProps {
  /** `No upkeep is due before Mar 3.` */
  readonly upkeep: string;
  readonly canners: readonly CannerFormProps[];
  readonly adding: CannerFormProps;
}

const methods: readonly Choice[] = [
  { value: 'boiling-water', words: 'Boiling water' },
  { value: 'steam', words: 'Atmospheric steam' },
  { value: 'pressure', words: 'Pressure' },
];

const gauges: readonly Choice[] = [
  { value: '', words: 'none, or don’t know' },
  { value: 'dial', words: 'dial gauge' },
  { value: 'weighted', words: 'weighted gauge' },
];

/** What the household can process jars in. */
export const Canners = ({ canners, adding, upkeep, said }: CannersProps & Said) => (
  <Part
    id="canners"
    title="Canners and gauges"
    said={said}
    folded={{ words: counted(canners.length, 'canner'), open: hasProblems(adding, ...canners) }}
    line="A pressure canner needs its kind of gauge; a dial gauge counts only within 365 days of a check, with how far off it was."
  >
    {canners.length === 0 ? (
      <EmptyState text="No canner yet: nothing can be canned until there is one." />
    ) : null}
    {canners.map((canner) => (
      <CannerForm key={canner.cannerId} {...canner} />
    ))}
    <CannerForm {...adding} />
    <p class="more">
      {`${upkeep} `}
      <a href="/upkeep">Upkeep</a>
    </p>
  </Part>
);

const CannerForm = (props: CannerFormProps) => (
  <details class="fold" id={props.formId} open={hasProblems(props)}>
    <summary>
      <strong>{props.title}</strong>
      {props.state === null ? null : <span class="quiet">{` ${props.state}`}</span>}
    </summary>
    <CannerFields {...props} />
    {props.cannerId === null || props.retireKeys === null ? null : (
      <KitchenForm
        part="canners"
        class="inline-form"
        action={`/kitchen/canners/${props.cannerId}/retirement`}
        keys={props.retireKeys}
      >
        <Button weight="quiet">{`Remove ${props.title}`}</Button>
      </KitchenForm>
    )}
  </details>
);

const CannerFields = ({ cannerId, sizes, title, ...form }: CannerFormProps) => (
  <KitchenForm
    part="canners"
    action={cannerId === null ? '/kitchen/canners' : `/kitchen/canners/${cannerId}`}
    form={form}
    label={title}
  >
    <InputField form={form} name="name" label="Name" />
    <RadioField form={form} name="method" label="How it processes" choices={methods} />
    <div class="form-row">
      <SelectField form={form} name="gauge" label="Gauge" hint="Pressure canners only." choices={gauges} />
      <InputField
        form={form}
        name="gaugeCheckedOn"
        type="date"
        label="Dial gauge last checked"
        hint="By a dealer or an extension office."
      />
    </div>
    <GaugeOffFields form={form} />
    <InputField
      form={form}
      name="volumeQuarts"
      label="Quarts of water it holds"
      hint="Only needed for smoked fish."
      inputMode="decimal"
      width="short"
    />
    <SelectField
      form={form}
      name="size"
      label="Its size, as sold"
      hint="Choosing one fills in what a load holds. For any other, count the jars that fit upright."
      choices={[{ value: '', words: 'as counted below' }, ...sizes]}
    />
    <div class="form-row">
      <InputField form={form} name="quartJars" label="Quarts a load" inputMode="numeric" width="short" />
      <InputField form={form} name="pintJars" label="Pints a load" inputMode="numeric" width="short" />
      <InputField
        form={form}
        name="halfPintJars"
        label="Half-pints a load"
        inputMode="numeric"
        width="short"
      />
    </div>
    <p>
      <Button weight="main">{cannerId === null ? 'Add this canner' : 'Save'}</Button>
    </p>
  </KitchenForm>
);
