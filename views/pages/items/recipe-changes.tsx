import { Button } from '../../parts/button.tsx';
import { CheckField, type FormState, hasProblems, InputField } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';

/** `change-` and the change. */
export type ChangeField = `change-${string}`;

/** What a household may do otherwise than the tested recipe says, and does. */
export interface RecipeChangesProps {
  readonly action: string;
  readonly form: FormState<Readonly<Record<'other', string> & Record<ChangeField, boolean>>>;
  readonly recipeName: string;
  readonly choices: readonly {
    readonly name: ChangeField;
    /** `Dried spices and dried herbs may be changed or left out` */
    readonly rule: string;
    readonly source: string;
  }[];
}

export const RecipeChanges = ({ changes }: { changes: RecipeChangesProps }) => {
  const { form } = changes;
  return (
    <details class="fold" open={hasProblems(form)}>
      <summary>What we do otherwise</summary>
      <PostForm action={changes.action} form={form} label={`Changes to ${changes.recipeName}`}>
        <p class="hint">
          A tested recipe stays tested under these changes only. Its proportions of vegetables, fruit, acid
          and solids are part of the test.
        </p>
        {changes.choices.map(({ name, rule, source }) => (
          <CheckField key={name} form={form} name={name} label={rule} hint={source} />
        ))}
        <InputField form={form} name="other" label="Something else" />
        <p>
          <Button weight="main">Save what we do otherwise</Button>
        </p>
      </PostForm>
    </details>
  );
};
