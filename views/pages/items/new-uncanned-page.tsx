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

export type UncannedField =
  | 'name'
  | 'family'
  | 'keeping'
  | 'crop'
  | 'lb'
  | 'units'
  | 'unit'
  | 'handsOnMinutes'
  | 'readyAfterDays'
  | 'bestQualityDays'
  | 'freezerQuarts'
  | 'yearsInTwenty'
  | 'amount'
  | 'per';

export interface NewUncannedProps {
  readonly frame: Frame;
  readonly keys: FormKeys;
  readonly values: Readonly<Record<UncannedField, string>>;
  readonly problems: FieldProblems;
  readonly families: readonly Choice[];
  readonly keepings: readonly Choice[];
  readonly crops: readonly Choice[];
  readonly units: readonly Choice[];
  /** "Published: strawberries, frozen, 243 to 365 days at 0°F." One line for each way of keeping. */
  readonly lives: readonly string[];
}

const form = 'new-uncanned';

/** Something that is frozen, dried, cellared or fermented, as the household does it. */
export const NewUncannedPage = ({ frame, keys, values, problems, lives, ...choices }: NewUncannedProps) => (
  <Page
    frame={frame}
    title="Add something you freeze, dry or store"
    section="items"
    about="Add something that is put up without a canner, the way you do it."
  >
    <p class="page-back">
      <a href="/items">{pageNames.items}</a>
    </p>
    <h1 class="page-title">Add something you freeze, dry or store</h1>
    <p class="page-line">
      Your own way, without a canner. It is planned, put up, labeled and eaten like the rest; nothing of it is
      canned.
    </p>
    <PostForm action="/items" keys={keys} problems={problems} label="Something frozen, dried or stored">
      <input type="hidden" name="kind" value="uncanned" />
      <InputField
        form={form}
        name="name"
        label="What you call it"
        value={values.name}
        problem={problems.name}
      />
      <div class="form-row">
        <SelectField
          form={form}
          name="keeping"
          label="Kept"
          value={values.keeping}
          choices={choices.keepings}
          problem={problems.keeping}
        />
        <SelectField
          form={form}
          name="family"
          label="Kind of food"
          value={values.family}
          choices={choices.families}
          problem={problems.family}
        />
      </div>
      <div class="form-row">
        <SelectField
          form={form}
          name="crop"
          label="Made of"
          hint="Planned when the crop is ripe; without a crop, in any week."
          value={values.crop}
          choices={choices.crops}
          problem={problems.crop}
        />
        <InputField
          form={form}
          name="lb"
          label="Pounds for one batch"
          value={values.lb}
          inputMode="decimal"
          width="short"
          unit="lb"
          problem={problems.lb}
        />
      </div>
      <div class="form-row">
        <InputField
          form={form}
          name="units"
          label="One batch gives"
          value={values.units}
          inputMode="decimal"
          width="short"
          problem={problems.units}
        />
        <SelectField
          form={form}
          name="unit"
          label="Counted in"
          value={values.unit}
          choices={choices.units}
          problem={problems.unit}
        />
      </div>
      <div class="form-row">
        <InputField
          form={form}
          name="handsOnMinutes"
          label="Work for one batch"
          hint="Your guess; what it takes you corrects it."
          value={values.handsOnMinutes}
          inputMode="numeric"
          width="short"
          unit="minutes"
          problem={problems.handsOnMinutes}
        />
        <InputField
          form={form}
          name="readyAfterDays"
          label="Ready after"
          hint="Days of curing or fermenting. Leave blank if it is ready at once."
          value={values.readyAfterDays}
          inputMode="numeric"
          width="short"
          unit="days"
          problem={problems.readyAfterDays}
        />
      </div>
      <InputField
        form={form}
        name="bestQualityDays"
        label="Best quality for"
        hint="How long it keeps at your place. Leave blank for the published days."
        value={values.bestQualityDays}
        inputMode="numeric"
        width="short"
        unit="days"
        problem={problems.bestQualityDays}
      />
      <details class="fold">
        <summary>What is published</summary>
        <ul class="plain-list small">
          {lives.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        <p class="small quiet">A matter of taste, not of safety. Past it, it is eaten first.</p>
      </details>
      <InputField
        form={form}
        name="freezerQuarts"
        label="One takes up in the freezer"
        hint="For what you freeze. Leave blank to leave your freezer out of it."
        value={values.freezerQuarts}
        inputMode="decimal"
        width="short"
        unit="quarts"
        problem={problems.freezerQuarts}
      />
      <FirstUseFields form={form} values={values} problems={problems} />
      <HowSureField form={form} value={values.yearsInTwenty} problem={problems.yearsInTwenty} />
      <p>
        <Button weight="main" big>
          Keep it
        </Button>
      </p>
      <p class="small quiet">
        Blanch, dry, cure and ferment by a current official guide, and ask your local extension service. Food
        in oil, and meat or fish that is dried or cured, is not taken here.
      </p>
    </PostForm>
  </Page>
);
