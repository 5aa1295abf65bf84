import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { UseQuestion, type UseQuestionProps } from './use-question.tsx';

/** Declared against observed against forecast, with the evidence in words. */
export interface AppetiteProps {
  readonly declared: string;
  readonly observed: string;
  readonly forecast: string;
  /** "11 jars in 9 weeks that counted." */
  readonly evidence: string;
  /** "4 years in 5 between 0.9 and 1.8 a week." */
  readonly range: string;
  /** Null while the weeks look as before. */
  readonly newHabit: NewHabitProps | null;
  readonly questions: readonly UseQuestionProps[];
}

/** A change of habit that the weeks suggest, and the one touch that says it. */
export interface NewHabitProps {
  readonly itemId: string;
  readonly words: string;
  /** "From now on about 2 a week" */
  readonly button: string;
  readonly amount: string;
  readonly per: string;
  readonly keys: FormKeys;
}

export const Appetite = ({
  declared,
  observed,
  forecast,
  evidence,
  range,
  newHabit,
  questions,
}: AppetiteProps) => (
  <>
    <dl class="appetite">
      <div>
        <dt>You said</dt>
        <dd>{declared}</dd>
      </div>
      <div>
        <dt>You took</dt>
        <dd>{observed}</dd>
        <dd class="small quiet">{evidence}</dd>
      </div>
      <div>
        <dt>We expect from now on</dt>
        <dd>{forecast}</dd>
        <dd class="small quiet">{range}</dd>
      </div>
    </dl>
    {newHabit === null ? null : <NewHabit {...newHabit} />}
    {questions.map((question) => (
      <UseQuestion key={question.label} {...question} />
    ))}
  </>
);

const NewHabit = ({ itemId, words, button, amount, per, keys }: NewHabitProps) => (
  <PostForm action={`/targets/${itemId}/declared-use`} keys={keys} label="A new habit" class="new-habit">
    <p>{words}</p>
    <input type="hidden" name="amount" value={amount} />
    <input type="hidden" name="countedIn" value="units" />
    <input type="hidden" name="per" value={per} />
    <input type="hidden" name="restartsFilter" value="yes" />
    <p>
      <Button weight="main" name="intent" value="save">
        {button}
      </Button>
    </p>
  </PostForm>
);
