import type { harvestWindowForm, sourceAsTyped } from '../../../shared/schemas/harvest.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { InputField, RadioField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

export interface SourcePageProps {
  readonly frame: Frame;
  readonly title: string;
  readonly source: SourceFormProps;
  /** Empty while a new source is written down. */
  readonly windows: readonly WindowFormProps[];
  /** Null while a new source is written down. */
  readonly retire: { readonly action: string; readonly keys: FormKeys } | null;
}

export interface SourceFormProps {
  readonly action: string;
  readonly form: SourceForm;
  readonly crops: readonly Choice[];
  /** What an amount of any crop may be typed in. */
  readonly units: readonly Choice[];
  /** What a price may be for. */
  readonly pricedUnits: readonly Choice[];
  readonly save: string;
}

/** A price and an amount are in what is chosen beside them, `lb` or `bushel`. */
export type SourceForm = StateOf<typeof sourceAsTyped, 'sourceId', 'priceUnit' | 'plantUnit'>;

export interface WindowFormProps {
  readonly sourceId: string;
  readonly year: number;
  /** What a published table says of this crop's season, to help. */
  readonly published: string | null;
  readonly units: readonly Choice[];
  readonly form: WindowForm;
}

export type WindowForm = StateOf<typeof harvestWindowForm, 'sourceId', 'amountUnit'>;

const kinds: readonly Choice[] = [
  { value: 'garden', words: 'Own garden' },
  { value: 'pick-your-own', words: 'Pick your own' },
  { value: 'market', words: 'Market' },
];

const fallBacks: readonly Choice[] = [
  { value: 'buy', words: 'Buy it elsewhere' },
  { value: 'substitute', words: 'Put up something else' },
  { value: 'do-without', words: 'Do without' },
];

export const SourcePage = ({ frame, title, source, windows, retire }: SourcePageProps) => (
  <Page frame={frame} title={title} section="harvest" about="One source of a crop: where, when, how much.">
    <p class="page-back">
      <a href="/harvest">Harvest</a>
    </p>
    <h1 class="page-title">{title}</h1>
    <Part id="source" title="The source">
      <SourceFields {...source} />
    </Part>
    {windows.map((window) => (
      <WindowFields key={window.year} {...window} />
    ))}
    {retire === null ? null : (
      <PostForm class="inline-form retire" action={retire.action} keys={retire.keys}>
        <Button weight="quiet">Stop using this source</Button>
      </PostForm>
    )}
  </Page>
);

const SourceFields = ({ action, form, crops, units, pricedUnits, save }: SourceFormProps) => (
  <PostForm action={action} form={form} label="The source">
    <InputField form={form} name="name" label="Name" width="full" />
    <SelectField form={form} name="crop" label="Crop" choices={crops} />
    <RadioField form={form} name="kind" label="Where" choices={kinds} />
    <div class="form-row">
      <InputField form={form} name="pricePerLb" label="Price" inputMode="decimal" width="short" money />
      <SelectField form={form} name="priceUnit" label="For" choices={pricedUnits} />
      <InputField
        form={form}
        name="useByDays"
        label="Keeps once picked"
        inputMode="numeric"
        width="short"
        unit="days"
      />
    </div>
    <div class="form-row">
      <InputField
        form={form}
        name="plants"
        label="Plants"
        hint="Own garden only."
        inputMode="numeric"
        width="short"
      />
      <InputField
        form={form}
        name="lbPerPlant"
        label="A plant gives"
        hint="Own garden only."
        inputMode="decimal"
        width="short"
      />
      <SelectField form={form} name="plantUnit" label="In, a year" choices={units} />
    </div>
    <div class="form-row">
      <InputField
        form={form}
        name="poorYearsInTen"
        label="Poor years"
        hint="Of ten years, how many are poor."
        inputMode="decimal"
        width="short"
        unit="in 10"
      />
      <InputField
        form={form}
        name="poorYearPercent"
        label="A poor year gives"
        hint="Of the usual amount."
        inputMode="decimal"
        width="short"
        unit="%"
      />
    </div>
    <RadioField form={form} name="fallBack" label="When the crop fails" choices={fallBacks} />
    <p>
      <Button weight="main">{save}</Button>
    </p>
  </PostForm>
);

const WindowFields = ({ sourceId, year, published, units, form }: WindowFormProps) => (
  <Part id={form.formId} title={`Window ${year}`} line={published ?? undefined}>
    <PostForm action={`/harvest/${sourceId}/windows/${year}`} form={form} label={`Harvest window ${year}`}>
      <div class="form-row">
        <InputField form={form} name="beginsOn" type="date" label="First day" />
        <InputField form={form} name="lastOn" type="date" label="Last day" />
      </div>
      <div class="form-row">
        <InputField form={form} name="mostActiveFrom" type="date" label="Most of it from" />
        <InputField form={form} name="mostActiveLastOn" type="date" label="Most of it until" />
      </div>
      <div class="form-row">
        <InputField form={form} name="lbPerWeek" label="Gives a week" inputMode="decimal" width="short" />
        <SelectField form={form} name="amountUnit" label="In" choices={units} />
      </div>
      <p>
        <Button weight="main">{`Save ${year}`}</Button>
      </p>
    </PostForm>
  </Part>
);
