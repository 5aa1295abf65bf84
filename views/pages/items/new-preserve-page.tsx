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
import { type AskedName, NameQuestion } from '../../parts/name-question.tsx';
import { Part } from '../../parts/part.tsx';
import { ProduceField } from '../../parts/produce-field.tsx';
import { FirstUseFields, HowSureField } from './use-fields.tsx';

export interface NewPreserveProps {
  readonly frame: Frame;
  readonly keys: FormKeys;
  readonly recipeKey: string;
  readonly printedName: string;
  readonly source: string;
  /** The item a further recipe is added to; null for a new item. */
  readonly addTo: { readonly id: string; readonly name: string } | null;
  readonly values: Readonly<
    Record<'name' | 'family' | 'jarKind' | 'handsOnMinutes' | 'yearsInTwenty' | 'amount' | 'per', string>
  >;
  readonly problems: FieldProblems;
  /** Asked once the name was sent and names another food. */
  readonly asked: AskedName | null;
  readonly inIt: string;
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
  readonly value: string;
  readonly unit: string;
  readonly units: readonly Choice[];
  readonly problem: string | undefined;
  readonly unitProblem: string | undefined;
}

const form = 'new-preserve';

/** Takes one tested recipe into the household's own. */
export const NewPreservePage = (props: NewPreserveProps) => {
  const { frame, keys, values, problems, addTo } = props;
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
        keys={keys}
        problems={problems}
        label={props.printedName}
      >
        <input type="hidden" name="recipe" value={props.recipeKey} />
        {addTo === null ? (
          <>
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
              choices={props.families}
              problem={problems.family}
            />
          </>
        ) : null}
        {props.asked === null ? null : (
          <NameQuestion form={form} asked={props.asked} value={props.inIt} problem={problems.inIt} />
        )}
        <SelectField
          form={form}
          name="jarKind"
          label="Jar"
          hint="Only sizes with a tested process."
          value={values.jarKind}
          choices={props.jars}
          problem={problems.jarKind}
        />
        {[...props.crops, ...(props.leftOver === null ? [] : [props.leftOver])].map((crop) => (
          <ProduceField
            key={crop.field}
            form={form}
            name={crop.field}
            label={crop.label}
            hint={crop.hint}
            value={crop.value}
            unit={crop.unit}
            units={crop.units}
            problem={crop.problem}
            unitProblem={crop.unitProblem}
          />
        ))}
        <InputField
          form={form}
          name="handsOnMinutes"
          label="Work for one batch"
          hint="Our guess, not published; what it takes you corrects it."
          value={values.handsOnMinutes}
          inputMode="numeric"
          width="short"
          unit="minutes"
          problem={problems.handsOnMinutes}
        />
        {addTo === null ? (
          <>
            <FirstUseFields form={form} values={values} problems={problems} />
            <HowSureField form={form} value={values.yearsInTwenty} problem={problems.yearsInTwenty} />
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
