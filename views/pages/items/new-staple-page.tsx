import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import {
  type Choice,
  type FieldProblems,
  type FormKeys,
  InputField,
  PostForm,
  SelectField,
} from '../../parts/form.tsx';
import { pageNames } from '../../words/page-names.ts';
import { FirstUseFields, HowSureField } from './use-fields.tsx';

export interface NewStapleProps {
  readonly frame: Frame;
  readonly keys: FormKeys;
  readonly values: Readonly<
    Record<
      | 'name'
      | 'family'
      | 'unit'
      | 'bestQualityDays'
      | 'packUnits'
      | 'packPrice'
      | 'yearsInTwenty'
      | 'amount'
      | 'per',
      string
    >
  >;
  readonly problems: FieldProblems;
  readonly families: readonly Choice[];
}

const form = 'new-staple';

/** Something that is only bought: flour, oats, salt. */
export const NewStaplePage = ({ frame, keys, values, problems, families }: NewStapleProps) => (
  <Page
    frame={frame}
    title="Add something to buy"
    section="items"
    about="Add a staple that is bought by the pack."
  >
    <p class="page-back">
      <a href="/items">{pageNames.items}</a>
    </p>
    <h1 class="page-title">Add something to buy</h1>
    <PostForm action="/items" keys={keys} problems={problems} label="A staple">
      <input type="hidden" name="kind" value="staple" />
      <InputField
        form={form}
        name="name"
        label="What you call it"
        value={values.name}
        problem={problems.name}
      />
      <SelectField
        form={form}
        name="family"
        label="Kind of food"
        value={values.family}
        choices={families}
        problem={problems.family}
      />
      <SelectField
        form={form}
        name="unit"
        label="Counted in"
        value={values.unit}
        choices={[
          { value: 'lb', words: 'pounds' },
          { value: 'each', words: 'pieces' },
          { value: 'bag', words: 'bags' },
          { value: 'bin', words: 'bins' },
        ]}
        problem={problems.unit}
      />
      <div class="form-row">
        <InputField
          form={form}
          name="packUnits"
          label="How many in a pack"
          value={values.packUnits}
          inputMode="decimal"
          width="short"
          problem={problems.packUnits}
        />
        <InputField
          form={form}
          name="packPrice"
          label="Price of a pack"
          value={values.packPrice}
          inputMode="decimal"
          width="short"
          money
          problem={problems.packPrice}
        />
      </div>
      <InputField
        form={form}
        name="bestQualityDays"
        label="Best quality for"
        hint="As printed on the pack. Past it, it is eaten first."
        value={values.bestQualityDays}
        inputMode="numeric"
        width="short"
        unit="days"
        problem={problems.bestQualityDays}
      />
      <FirstUseFields form={form} values={values} problems={problems} />
      <HowSureField form={form} value={values.yearsInTwenty} problem={problems.yearsInTwenty} />
      <p>
        <Button weight="main" big>
          Keep it
        </Button>
      </p>
    </PostForm>
  </Page>
);
