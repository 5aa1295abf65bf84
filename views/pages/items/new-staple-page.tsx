import type { stapleForm } from '../../../shared/schemas/item.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
import { pageNames } from '../../words/page-names.ts';
import { FirstUseFields, HowSureField } from './use-fields.tsx';

export interface NewStapleProps {
  readonly frame: Frame;
  readonly form: StateOf<typeof stapleForm>;
  readonly families: readonly Choice[];
  /** What it may be counted in. */
  readonly units: readonly Choice[];
}

/** Something that is only bought: flour, oats, salt. */
export const NewStaplePage = ({ frame, form, families, units }: NewStapleProps) => (
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
    <PostForm action="/items" form={form} label="A staple">
      <input type="hidden" name="kind" value="staple" />
      <InputField form={form} name="name" label="What you call it" />
      <SelectField form={form} name="family" label="Kind of food" choices={families} />
      <SelectField form={form} name="unit" label="Counted in" choices={units} />
      <div class="form-row">
        <InputField
          form={form}
          name="packUnits"
          label="How many in a pack"
          inputMode="decimal"
          width="short"
        />
        <InputField
          form={form}
          name="packPrice"
          label="Price of a pack"
          inputMode="decimal"
          width="short"
          money
        />
      </div>
      <InputField
        form={form}
        name="bestQualityDays"
        label="Best quality for"
        hint="As printed on the pack. Past it, it is eaten first."
        inputMode="numeric"
        width="short"
        unit="days"
      />
      <FirstUseFields form={form} />
      <HowSureField form={form} />
      <p>
        <Button weight="main" big>
          Keep it
        </Button>
      </p>
    </PostForm>
  </Page>
);
