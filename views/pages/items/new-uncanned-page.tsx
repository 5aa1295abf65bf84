import type { uncannedForm } from '../../../shared/schemas/item.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
import { ProduceField } from '../../parts/produce-field.tsx';
import { WaySteps, type WayStepsProps } from '../../parts/way-steps.tsx';
import { pageNames } from '../../words/page-names.ts';
import { FirstUseFields, HowSureField } from './use-fields.tsx';

export type UncannedForm = StateOf<typeof uncannedForm, never, 'lbUnit'>;

export interface NewUncannedProps {
  readonly frame: Frame;
  readonly form: UncannedForm;
  readonly families: readonly Choice[];
  readonly keepings: readonly Choice[];
  readonly crops: readonly Choice[];
  /** What the book's way takes from the store: `0.44 lb of sugar for 4`. */
  readonly supplies: readonly string[];
  /** How many units those are for. */
  readonly suppliesFor: string;
  /** What other batches leave, and what it is weighed in. */
  readonly materials: readonly Choice[];
  readonly materialUnit: string;
  /** The way of the book it follows; null for one's own. */
  readonly way: (WayStepsProps & { readonly key: string; readonly name: string }) | null;
  /** A recipe of one's own that stands in no book: kept cold alone. */
  readonly isOwnRecipe: boolean;
  /** Why it is never canned, in the words of the gate; null where that is not asked. */
  readonly neverCanned: string | null;
  /** The item that gets one more way; null for a new one. */
  readonly addTo: { readonly id: string; readonly name: string } | null;
  readonly units: readonly Choice[];
  /** What the crop of a batch may be measured in. */
  readonly produceUnits: readonly Choice[];
  /** "Published: strawberries, frozen, 243 to 365 days at 0°F." One line for each way of keeping. */
  readonly lives: readonly string[];
}

/** Something that is frozen, dried, cellared or fermented: by a way of the book, or as the household does it. */
export const NewUncannedPage = (props: NewUncannedProps) => {
  const { frame, form, way, addTo, neverCanned } = props;
  const title =
    way?.name ??
    (addTo !== null
      ? `Another way to make ${addTo.name}`
      : props.isOwnRecipe
        ? 'Add a recipe of your own'
        : 'Add something you freeze, dry or store');
  return (
    <Page frame={frame} title={title} section="items" about="Add something that is put up without a canner.">
      <p class="page-back">
        {addTo === null ? (
          <a href={way === null ? '/items' : '/items/new'}>
            {way === null ? pageNames.items : 'The recipe book'}
          </a>
        ) : (
          <a href={`/items/${addTo.id}`}>{addTo.name}</a>
        )}
      </p>
      <h1 class="page-title">{title}</h1>
      <p class="page-line">
        {way === null
          ? 'Your own way, without a canner. It is planned, put up, labeled and eaten like the rest; nothing of it is canned.'
          : 'Put up without a canner, and planned like the rest. Figures the guide does not print are yours to fill in.'}
      </p>
      {neverCanned === null ? null : (
        <div class="banner banner-note">
          <p>It goes into the freezer or the refrigerator, and is never canned.</p>
          <p>{neverCanned}</p>
        </div>
      )}
      {way === null ? null : <WaySteps way={way} />}
      <PostForm
        action={addTo === null ? '/items' : `/items/${addTo.id}/ways`}
        form={form}
        label="Something frozen, dried or stored"
      >
        <input type="hidden" name="kind" value="uncanned" />
        {way === null ? null : <input type="hidden" name="way" value={way.key} />}
        {props.isOwnRecipe ? <input type="hidden" name="own" value="yes" /> : null}
        <InputField
          form={form}
          name="name"
          label={addTo === null ? 'What you call it' : 'What you call this way'}
        />
        {addTo === null ? (
          <div class="form-row">
            <SelectField form={form} name="keeping" label="Kept" choices={props.keepings} />
            <SelectField form={form} name="family" label="Kind of food" choices={props.families} />
          </div>
        ) : null}
        <MadeOf {...props} />
        <Bought supplies={props.supplies} suppliesFor={props.suppliesFor} />
        <div class="form-row">
          <InputField form={form} name="units" label="One batch gives" inputMode="decimal" width="short" />
          {addTo === null ? (
            <SelectField form={form} name="unit" label="Counted in" choices={props.units} />
          ) : null}
        </div>
        <div class="form-row">
          <InputField
            form={form}
            name="handsOnMinutes"
            label="Work for one batch"
            hint="Your guess; what it takes you corrects it."
            inputMode="numeric"
            width="short"
            unit="minutes"
          />
          <InputField
            form={form}
            name="readyAfterDays"
            label="Ready after"
            hint="Days of curing or fermenting. Leave blank if it is ready at once."
            inputMode="numeric"
            width="short"
            unit="days"
          />
        </div>
        {addTo === null ? <Keeps {...props} /> : null}
        <p>
          <Button weight="main" big>
            {addTo === null ? 'Keep it' : 'Add this way'}
          </Button>
        </p>
        <p class="small quiet">
          Blanch, dry, cure and ferment by a current official guide, and ask your local extension service.
          Food in oil, and meat or fish that is dried or cured, is not taken here.
        </p>
      </PostForm>
    </Page>
  );
};

const MadeOf = ({ form, crops, materials, materialUnit, produceUnits }: NewUncannedProps) => (
  <>
    <div class="form-row">
      <SelectField
        form={form}
        name="crop"
        label="Made of"
        hint="Planned when the crop is ripe; without a crop, in any week."
        choices={crops}
      />
    </div>
    <ProduceField form={form} name="lb" label="For one batch" units={produceUnits} />
    <div class="form-row">
      <SelectField
        form={form}
        name="material"
        label="And of what another batch leaves"
        hint="Planned in a week in which others leave enough of it."
        choices={materials}
      />
      <InputField
        form={form}
        name="materialLb"
        label="Of that, for one batch"
        inputMode="decimal"
        width="short"
        unit={materialUnit}
      />
    </div>
  </>
);

const Bought = ({ supplies, suppliesFor }: Pick<NewUncannedProps, 'supplies' | 'suppliesFor'>) =>
  supplies.length === 0 ? null : (
    <p class="small">{`From the store for ${suppliesFor}: ${supplies.join('; ')}. It goes on the shopping list, scaled to your batch.`}</p>
  );

const Keeps = ({ form, lives }: NewUncannedProps) => (
  <>
    <InputField
      form={form}
      name="bestQualityDays"
      label="Best quality for"
      hint="How long it keeps at your place. Leave blank for the published days."
      inputMode="numeric"
      width="short"
      unit="days"
    />
    <details class="fold">
      <summary>What is published</summary>
      <ul class="plain-list small">
        {lives.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p class="small quiet">
        A matter of taste, not of safety: past it, it is eaten first. What stands in the refrigerator is
        thrown away past its days.
      </p>
    </details>
    <InputField
      form={form}
      name="freezerQuarts"
      label="One takes up in the freezer"
      hint="For what you freeze. Leave blank to leave your freezer out of it."
      inputMode="decimal"
      width="short"
      unit="quarts"
    />
    <FirstUseFields form={form} />
    <HowSureField form={form} />
  </>
);
