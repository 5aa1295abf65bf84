import type { leftOversForm } from '../../../shared/schemas/item.ts';
import { Button } from '../../parts/button.tsx';
import { hasProblems, InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';

/** What a batch leaves for others and takes of what others leave. */
export interface LeftOversProps {
  readonly action: string;
  readonly form: StateOf<typeof leftOversForm, 'recipeId'>;
  readonly recipeName: string;
  /** "2.5 lb of apple pulp"; null where nothing is counted on. */
  readonly leaves: string | null;
  readonly takes: string | null;
  /** "Fruit leather from jelly pulp": what the book makes of what is left, with its address. */
  readonly madeOfIt: readonly { readonly name: string; readonly href: string }[];
  /** How the amount that is left is known. */
  readonly leavesHint: string;
  readonly leavesUnit: string;
  readonly takesUnit: string;
  readonly leavesChoices: readonly Choice[];
  /** Empty where it may take nothing: it is canned as it was tested. */
  readonly takesChoices: readonly Choice[];
}

export const LeftOvers = ({ leftOvers }: { leftOvers: LeftOversProps }) => {
  const { form } = leftOvers;
  return (
    <details class="fold" open={hasProblems(form)}>
      <summary>What it leaves for another batch</summary>
      {leftOvers.madeOfIt.length === 0 ? null : (
        <div class="small">
          <p>From the book, made of it:</p>
          <ul class="plain-list">
            {leftOvers.madeOfIt.map(({ name, href }) => (
              <li key={href}>
                <a href={href}>{name}</a>
              </li>
            ))}
          </ul>
        </div>
      )}
      <PostForm action={leftOvers.action} form={form} label={`What ${leftOvers.recipeName} leaves`}>
        <div class="form-row">
          <SelectField form={form} name="leaves" label="A batch leaves" choices={leftOvers.leavesChoices} />
          <InputField
            form={form}
            name="leavesAmount"
            label="Left of one batch"
            hint={leftOvers.leavesHint}
            inputMode="decimal"
            width="short"
            unit={leftOvers.leavesUnit}
          />
        </div>
        {leftOvers.takesChoices.length === 0 ? null : (
          <div class="form-row">
            <SelectField
              form={form}
              name="takes"
              label="It is made of what another batch leaves"
              choices={leftOvers.takesChoices}
            />
            <InputField
              form={form}
              name="takesAmount"
              label="Taken for one batch"
              hint="No more is planned than others leave in time."
              inputMode="decimal"
              width="short"
              unit={leftOvers.takesUnit}
            />
          </div>
        )}
        <p>
          <Button weight="main">Save</Button>
        </p>
      </PostForm>
    </details>
  );
};
