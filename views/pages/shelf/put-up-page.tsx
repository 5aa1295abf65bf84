import type { putUpForm } from '../../../shared/schemas/shelf/put-up.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { InputField, RadioField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';

/** How it came and what was paid go with a purchase. */
export type PutUpState = StateOf<
  typeof putUpForm,
  'recipeId' | 'batches' | 'filled' | 'note' | 'evidence',
  'origin' | 'units' | 'jarKind' | 'paid'
>;

/** Writing down units that came onto the shelf. */
export interface PutUpFormProps {
  readonly form: PutUpState;
  readonly items: readonly Choice[];
  readonly jarKinds: readonly Choice[];
  readonly places: readonly Choice[];
}

const origins: readonly Choice[] = [
  { value: 'put-up', words: 'Put up here' },
  { value: 'bought', words: 'Bought' },
  { value: 'received', words: 'Received from others' },
];

export const PutUpPage = ({ frame, form }: { frame: Frame; form: PutUpFormProps }) => (
  <Page frame={frame} title="Put up or bought" section="shelf" about="Write down what came onto the shelf.">
    <p class="page-back">
      <a href="/shelf">Shelf</a>
    </p>
    <h1 class="page-title">Put up or bought</h1>
    <p class="page-line">One batch: the same item, jar and day.</p>
    <PutUpForm {...form} />
  </Page>
);

const PutUpForm = ({ form, items, jarKinds, places }: PutUpFormProps) => (
  <PostForm action="/shelf/lots" form={form} label="Put up or bought">
    <SelectField form={form} name="itemId" label="What" choices={items} />
    <RadioField
      form={form}
      name="origin"
      label="How it came"
      hint="We can’t know how food from others was canned: what is low in acid is set aside and not counted as food."
      choices={origins}
    />
    <div class="form-row">
      <InputField
        form={form}
        name="units"
        label="How many"
        hint="Jars, bags, pounds or bins, as the item is counted; pounds of a crop also as “2 bushels”."
        inputMode="decimal"
        width="short"
      />
      <InputField
        form={form}
        name="left"
        label="Left now"
        hint="Only for a batch you put up a while ago and have eaten some of: put up 30, left 8. The rest counts as eaten since that day. Leave blank if all are there."
        inputMode="decimal"
        width="short"
      />
      <SelectField form={form} name="jarKind" label="In which jar" choices={jarKinds} />
    </div>
    <div class="form-row">
      <InputField form={form} name="madeOn" type="date" label="Day it was put up or bought" />
      <InputField
        form={form}
        name="readyFrom"
        type="date"
        label="Ready from"
        hint="Leave blank if it is ready to eat right away."
      />
    </div>
    <SelectField form={form} name="placeId" label="Where it is" choices={places} />
    <div class="form-row">
      <InputField
        form={form}
        name="bestQualityUntil"
        type="date"
        label="Date printed on it"
        hint="Leave blank if there is none; then the usual keeping time counts."
      />
      <InputField
        form={form}
        name="paid"
        label="Paid in all"
        hint="Only if you bought it."
        inputMode="decimal"
        width="short"
        money
      />
    </div>
    <p>
      <Button weight="main">Put on the shelf</Button>
    </p>
  </PostForm>
);
