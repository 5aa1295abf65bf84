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
  readonly keys: FormKeys;
  readonly crops: readonly Choice[];
  readonly values: SourceValues;
  readonly problems: FieldProblems;
  /** What an amount of any crop may be typed in. */
  readonly units: readonly Choice[];
  /** What a price may be for. */
  readonly pricedUnits: readonly Choice[];
  readonly save: string;
}

export interface SourceValues {
  readonly name: string;
  readonly crop: string;
  readonly kind: string;
  readonly pricePerLb: string;
  /** What the price is for, `lb` or `bushel`. */
  readonly priceUnit: string;
  readonly plants: string;
  readonly lbPerPlant: string;
  readonly plantUnit: string;
  readonly useByDays: string;
  readonly poorYearsInTen: string;
  readonly poorYearPercent: string;
  readonly fallBack: string;
}

export interface WindowFormProps {
  readonly sourceId: string;
  readonly year: number;
  /** What a published table says of this crop's season, to help. */
  readonly published: string | null;
  readonly units: readonly Choice[];
  readonly keys: FormKeys;
  readonly values: WindowValues;
  readonly problems: FieldProblems;
}

export interface WindowValues {
  readonly beginsOn: string;
  readonly lastOn: string;
  readonly mostActiveFrom: string;
  readonly mostActiveLastOn: string;
  readonly lbPerWeek: string;
  /** What a week's harvest is counted in, `lb` or `bushel`. */
  readonly amountUnit: string;
}

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
      <SourceForm {...source} />
    </Part>
    {windows.map((window) => (
      <WindowForm key={window.year} {...window} />
    ))}
    {retire === null ? null : (
      <PostForm class="inline-form retire" action={retire.action} keys={retire.keys}>
        <Button weight="quiet">Stop using this source</Button>
      </PostForm>
    )}
  </Page>
);

const SourceForm = ({ action, keys, crops, values, problems, units, pricedUnits, save }: SourceFormProps) => (
  <PostForm action={action} keys={keys} problems={problems} label="The source">
    <InputField
      form="source"
      name="name"
      label="Name"
      value={values.name}
      width="full"
      problem={problems.name}
    />
    <SelectField
      form="source"
      name="crop"
      label="Crop"
      value={values.crop}
      choices={crops}
      problem={problems.crop}
    />
    <RadioField
      form="source"
      name="kind"
      label="Where"
      value={values.kind}
      choices={kinds}
      problem={problems.kind}
    />
    <div class="form-row">
      <InputField
        form="source"
        name="pricePerLb"
        label="Price"
        value={values.pricePerLb}
        inputMode="decimal"
        width="short"
        money
        problem={problems.pricePerLb}
      />
      <SelectField
        form="source"
        name="priceUnit"
        label="For"
        value={values.priceUnit}
        choices={pricedUnits}
        problem={problems.priceUnit}
      />
      <InputField
        form="source"
        name="useByDays"
        label="Keeps once picked"
        value={values.useByDays}
        inputMode="numeric"
        width="short"
        unit="days"
        problem={problems.useByDays}
      />
    </div>
    <div class="form-row">
      <InputField
        form="source"
        name="plants"
        label="Plants"
        hint="Own garden only."
        value={values.plants}
        inputMode="numeric"
        width="short"
        problem={problems.plants}
      />
      <InputField
        form="source"
        name="lbPerPlant"
        label="A plant gives"
        hint="Own garden only."
        value={values.lbPerPlant}
        inputMode="decimal"
        width="short"
        problem={problems.lbPerPlant}
      />
      <SelectField
        form="source"
        name="plantUnit"
        label="In, a year"
        value={values.plantUnit}
        choices={units}
        problem={problems.plantUnit}
      />
    </div>
    <div class="form-row">
      <InputField
        form="source"
        name="poorYearsInTen"
        label="Poor years"
        hint="Of ten years, how many are poor."
        value={values.poorYearsInTen}
        inputMode="decimal"
        width="short"
        unit="in 10"
        problem={problems.poorYearsInTen}
      />
      <InputField
        form="source"
        name="poorYearPercent"
        label="A poor year gives"
        hint="Of the usual amount."
        value={values.poorYearPercent}
        inputMode="decimal"
        width="short"
        unit="%"
        problem={problems.poorYearPercent}
      />
    </div>
    <RadioField
      form="source"
      name="fallBack"
      label="When the crop fails"
      value={values.fallBack}
      choices={fallBacks}
      problem={problems.fallBack}
    />
    <p>
      <Button weight="main">{save}</Button>
    </p>
  </PostForm>
);

const WindowForm = ({ sourceId, year, published, units, keys, values, problems }: WindowFormProps) => {
  const form = `window-${year}`;
  return (
    <Part id={form} title={`Window ${year}`} line={published ?? undefined}>
      <PostForm
        action={`/harvest/${sourceId}/windows/${year}`}
        keys={keys}
        problems={problems}
        label={`Harvest window ${year}`}
      >
        <div class="form-row">
          <InputField
            form={form}
            name="beginsOn"
            type="date"
            label="First day"
            value={values.beginsOn}
            problem={problems.beginsOn}
          />
          <InputField
            form={form}
            name="lastOn"
            type="date"
            label="Last day"
            value={values.lastOn}
            problem={problems.lastOn}
          />
        </div>
        <div class="form-row">
          <InputField
            form={form}
            name="mostActiveFrom"
            type="date"
            label="Most of it from"
            value={values.mostActiveFrom}
            problem={problems.mostActiveFrom}
          />
          <InputField
            form={form}
            name="mostActiveLastOn"
            type="date"
            label="Most of it until"
            value={values.mostActiveLastOn}
            problem={problems.mostActiveLastOn}
          />
        </div>
        <div class="form-row">
          <InputField
            form={form}
            name="lbPerWeek"
            label="Gives a week"
            value={values.lbPerWeek}
            inputMode="decimal"
            width="short"
            problem={problems.lbPerWeek}
          />
          <SelectField
            form={form}
            name="amountUnit"
            label="In"
            value={values.amountUnit}
            choices={units}
            problem={problems.amountUnit}
          />
        </div>
        <p>
          <Button weight="main">{`Save ${year}`}</Button>
        </p>
      </PostForm>
    </Part>
  );
};
