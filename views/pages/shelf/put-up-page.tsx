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

/** Writing down units that came onto the shelf. */
export interface PutUpFormProps {
  readonly keys: FormKeys;
  readonly items: readonly Choice[];
  readonly jarKinds: readonly Choice[];
  readonly places: readonly Choice[];
  readonly values: PutUpValues;
  readonly problems: FieldProblems;
}

export interface PutUpValues {
  readonly itemId: string;
  readonly origin: string;
  readonly units: string;
  readonly left: string;
  readonly jarKind: string;
  readonly madeOn: string;
  readonly placeId: string;
  readonly readyFrom: string;
  readonly bestQualityUntil: string;
  readonly paid: string;
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

const PutUpForm = ({ keys, items, jarKinds, places, values, problems }: PutUpFormProps) => (
  <PostForm action="/shelf/lots" keys={keys} problems={problems} label="Put up or bought">
    <SelectField
      form="lot"
      name="itemId"
      label="What"
      value={values.itemId}
      choices={items}
      problem={problems.itemId}
    />
    <RadioField
      form="lot"
      name="origin"
      label="How it came"
      hint="We can’t know how food from others was canned: what is low in acid is set aside and not counted as food."
      value={values.origin}
      choices={origins}
      problem={problems.origin}
    />
    <div class="form-row">
      <InputField
        form="lot"
        name="units"
        label="How many"
        hint="Jars, bags, pounds or bins, as the item is counted; pounds of a crop also as “2 bushels”."
        value={values.units}
        inputMode="decimal"
        width="short"
        problem={problems.units}
      />
      <InputField
        form="lot"
        name="left"
        label="Left now"
        hint="Only for a batch you put up a while ago and have eaten some of: put up 30, left 8. The rest counts as eaten since that day. Leave blank if all are there."
        value={values.left}
        inputMode="decimal"
        width="short"
        problem={problems.left}
      />
      <SelectField
        form="lot"
        name="jarKind"
        label="In which jar"
        value={values.jarKind}
        choices={jarKinds}
        problem={problems.jarKind}
      />
    </div>
    <div class="form-row">
      <InputField
        form="lot"
        name="madeOn"
        type="date"
        label="Day it was put up or bought"
        value={values.madeOn}
        problem={problems.madeOn}
      />
      <InputField
        form="lot"
        name="readyFrom"
        type="date"
        label="Ready from"
        hint="Leave blank if it is ready to eat right away."
        value={values.readyFrom}
        problem={problems.readyFrom}
      />
    </div>
    <SelectField
      form="lot"
      name="placeId"
      label="Where it is"
      value={values.placeId}
      choices={places}
      problem={problems.placeId}
    />
    <div class="form-row">
      <InputField
        form="lot"
        name="bestQualityUntil"
        type="date"
        label="Date printed on it"
        hint="Leave blank if there is none; then the usual keeping time counts."
        value={values.bestQualityUntil}
        problem={problems.bestQualityUntil}
      />
      <InputField
        form="lot"
        name="paid"
        label="Paid in all"
        hint="Only if you bought it."
        value={values.paid}
        inputMode="decimal"
        width="short"
        money
        problem={problems.paid}
      />
    </div>
    <p>
      <Button weight="main">Put on the shelf</Button>
    </p>
  </PostForm>
);
