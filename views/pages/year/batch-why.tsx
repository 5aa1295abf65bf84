import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';

/** A sentence for a week earlier and one for a week later. */
export type MovesAnswer = readonly string[];

export interface BatchWhyProps {
  readonly id: string;
  /** `Week of Aug 23: Peach jam, 2 batches` */
  readonly title: string;
  readonly reasons: readonly string[];
  readonly action: string;
  readonly recipe: string;
  readonly week: string;
  /** Null where no planner runs that could be asked. */
  readonly keys: FormKeys | null;
  readonly answer: MovesAnswer | null;
}

/** Why one planned batch is made and why in its week; what another week would cost is worked out when asked. */
export const BatchWhy = (props: BatchWhyProps) => (
  <li id={props.id} class="batch-why">
    <h3>{props.title}</h3>
    <ul class="plain-list">
      {props.reasons.map((reason) => (
        <li key={reason}>{reason}</li>
      ))}
    </ul>
    {props.answer === null ? null : (
      <div role="status">
        {props.answer.map((words) => (
          <p key={words}>{words}</p>
        ))}
      </div>
    )}
    {props.answer !== null || props.keys === null ? null : (
      <PostForm action={props.action} keys={props.keys} replaces={`#${props.id}`} class="batch-move">
        <input type="hidden" name="recipe" value={props.recipe} />
        <input type="hidden" name="week" value={props.week} />
        <Button weight="quiet" label={`What would another week cost? ${props.title}`}>
          What would another week cost?
        </Button>
      </PostForm>
    )}
  </li>
);
