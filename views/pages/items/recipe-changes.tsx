import { Button } from '../../parts/button.tsx';
import { CheckField, type FieldProblems, type FormKeys, InputField, PostForm } from '../../parts/form.tsx';

/** What a household may do otherwise than the tested recipe says, and does. */
export interface RecipeChangesProps {
  readonly action: string;
  readonly keys: FormKeys;
  readonly recipeName: string;
  readonly recipeId: string;
  readonly choices: readonly {
    /** `change-` and the change. */
    readonly name: string;
    /** `Dried spices and dried herbs may be changed or left out` */
    readonly rule: string;
    readonly source: string;
    readonly ticked: boolean;
  }[];
  readonly other: string;
  readonly problems: FieldProblems;
}

export const RecipeChanges = ({ changes }: { changes: RecipeChangesProps }) => {
  const form = `changes-${changes.recipeId}`;
  return (
    <details class="fold" open={Object.keys(changes.problems).length > 0}>
      <summary>What we do otherwise</summary>
      <PostForm
        action={changes.action}
        keys={changes.keys}
        problems={changes.problems}
        label={`Changes to ${changes.recipeName}`}
      >
        <p class="hint">
          A tested recipe stays tested under these changes only. Its proportions of vegetables, fruit, acid
          and solids are part of the test.
        </p>
        {changes.choices.map(({ name, rule, source, ticked }) => (
          <CheckField key={name} form={form} name={name} label={rule} hint={source} checked={ticked} />
        ))}
        <InputField
          form={form}
          name="other"
          label="Something else"
          value={changes.other}
          problem={changes.problems.other}
        />
        <p>
          <Button weight="main">Save what we do otherwise</Button>
        </p>
      </PostForm>
    </details>
  );
};
