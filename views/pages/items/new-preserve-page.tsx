import type { preserveForm } from '../../../shared/schemas/item.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
import { type AskedName, NameQuestion } from '../../parts/name-question.tsx';
import { Part } from '../../parts/part.tsx';
import { ProduceField } from '../../parts/produce-field.tsx';
import { FirstUseFields, HowSureField } from './use-fields.tsx';

export interface NewPreserveProps {
  readonly frame: Frame;
  readonly form: StateOf<typeof preserveForm, 'recipe', 'inIt'>;
  readonly recipeKey: string;
  readonly printedName: string;
  readonly source: string;
  /** The item a further recipe is added to; null for a new item. */
  readonly addTo: { readonly id: string; readonly name: string } | null;
  /** Asked once the name was sent and names another food. */
  readonly asked: AskedName | null;
  readonly families: readonly Choice[];
  readonly jars: readonly Choice[];
  /** Why it is kept but not planned yet; empty when it can be planned. */
  readonly notPlanned: readonly string[];
  /** "8 to 9 pints from one batch" */
  readonly comes: string;
  readonly crops: readonly CropField[];
  /** What another batch leaves and it is made of; null for what is made of none. */
  readonly leftOver: CropField | null;
  /** "5.5 cups of sugar" */
  readonly supplies: readonly string[];
  readonly life: string;
}

export interface CropField {
  readonly field: string;
  readonly label: string;
  readonly hint: string;
  /** What it is in where nothing else may be chosen. */
  readonly unit: string;
  readonly units: readonly Choice[];
}

/** Takes one tested recipe into the household's own. */
export const NewPreservePage = (props: NewPreserveProps) => {
  const { frame, form, addTo } = props;
  return (
    <Page
      frame={frame}
      title={props.printedName}
      section="items"
      about={`Add ${props.printedName} to what you keep.`}
    >
      <p class="page-back">
        <a href={addTo === null ? '/items/new' : `/items/new?item=${addTo.id}`}>The recipe book</a>
      </p>
      <h1 class="page-title">{props.printedName}</h1>
      <p class="page-line">{`${props.comes}. ${props.life}`}</p>
      <NotPlanned why={props.notPlanned} />
      <PostForm
        action={addTo === null ? '/items' : `/items/${addTo.id}/recipes`}
        form={form}
        label={props.printedName}
      >
        <input type="hidden" name="recipe" value={props.recipeKey} />
        {addTo === null ? (
          <>
            <InputField form={form} name="name" label="What you call it" />
            <SelectField form={form} name="family" label="Kind of food" choices={props.families} />
          </>
        ) : null}
        {props.asked === null ? null : <NameQuestion form={form} asked={props.asked} />}
        <SelectField
          form={form}
          name="jarKind"
          label="Jar"
          hint="Only sizes with a tested process."
          choices={props.jars}
        />
        {[...props.crops, ...(props.leftOver === null ? [] : [props.leftOver])].map((crop) => (
          <ProduceField<Readonly<Record<string, string>>>
            key={crop.field}
            form={form}
            name={crop.field}
            label={crop.label}
            hint={crop.hint}
            unit={crop.unit}
            units={crop.units}
          />
        ))}
        {props.crops.length === 0 ? null : (
          <p class="small">
            Write what one whole published batch takes: a tested batch is not divided, so its jars, what is
            bought for it and its crock stay as published, whatever amount you write.
          </p>
        )}
        <InputField
          form={form}
          name="handsOnMinutes"
          label="Work for one batch"
          hint="Our guess, not published; what it takes you corrects it."
          inputMode="numeric"
          width="short"
          unit="minutes"
        />
        {addTo === null ? (
          <>
            <FirstUseFields form={form} />
            <HowSureField form={form} />
          </>
        ) : null}
        <p>
          <Button weight="main" big>
            {addTo === null ? 'Keep it' : 'Add the recipe'}
          </Button>
        </p>
      </PostForm>
      <Part title="What a batch uses up" line={`From the published recipe: ${props.source}.`}>
        {props.supplies.length === 0 ? (
          <p>Nothing but the produce.</p>
        ) : (
          <ul class="plain-list">
            {props.supplies.map((supply) => (
              <li key={supply}>{supply}</li>
            ))}
          </ul>
        )}
        <p class="small quiet">
          For planning only. Cook from the current official guide, and ask your local extension service.
        </p>
      </Part>
    </Page>
  );
};

const NotPlanned = ({ why }: { why: readonly string[] }) =>
  why.length === 0 ? null : (
    <div class="banner banner-note">
      <p>It can be kept, but it is not planned yet:</p>
      {why.map((reason) => (
        <p key={reason}>{reason}</p>
      ))}
    </div>
  );
