import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';

/** A question about how an item is eaten, answered with one press. */
export interface UseQuestionProps {
  readonly label: string;
  readonly words: string;
  readonly forms: readonly AnswerForm[];
}

export interface AnswerForm {
  readonly action: string;
  readonly keys: FormKeys;
  readonly hidden: Readonly<Record<string, string>>;
  readonly buttons: readonly { readonly name: string; readonly value: string; readonly words: string }[];
}

export const UseQuestion = ({ label, words, forms }: UseQuestionProps) => (
  <div class="use-question">
    <p>{words}</p>
    <div class="form-row">
      {forms.map((form) => (
        <PostForm key={form.action} action={form.action} keys={form.keys} label={label} class="answer-form">
          {Object.entries(form.hidden).map(([name, value]) => (
            <input key={name} type="hidden" name={name} value={value} />
          ))}
          {form.buttons.map((button) => (
            <Button key={button.value} name={button.name} value={button.value}>
              {button.words}
            </Button>
          ))}
        </PostForm>
      ))}
    </div>
  </div>
);
