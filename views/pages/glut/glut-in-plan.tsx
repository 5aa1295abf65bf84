import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { PlanStatus, type PlanStatusProps } from '../../parts/plan-status.tsx';

interface Line {
  readonly key: string;
  readonly words: string;
}

/** A glut that is in the plan, what the plan does otherwise for it, and the way back. */
export interface GlutInPlanProps {
  readonly id: string;
  /** `40 lb of peaches` */
  readonly what: string;
  /** `They keep until Saturday, August 15.` */
  readonly keeps: string;
  /** `Peach jam, 2 batches, this week` */
  readonly makes: readonly Line[];
  /** What the new plan does otherwise; null until there is one. */
  readonly change: { readonly lines: readonly Line[]; readonly sum: string } | null;
  readonly plan: PlanStatusProps;
  readonly keys: FormKeys;
}

export const GlutInPlan = ({ id, what, keeps, makes, change, plan, keys }: GlutInPlanProps) => (
  <Part title={`In the plan: ${what}`} id="glut-plan" line={keeps}>
    <ul class="plain-list">
      {makes.map((make) => (
        <li key={make.key}>{make.words}</li>
      ))}
    </ul>
    <PostForm action="/glut/undone" keys={keys} class="glut-undo">
      <input type="hidden" name="id" value={id} />
      <Button weight="quiet" label={`Undo: ${what} in the plan`}>
        Undo
      </Button>{' '}
      <a href="/">This week</a>
    </PostForm>
    <PlanStatus {...plan} />
    {change === null ? null : (
      <div role="status">
        <h3>What it displaces</h3>
        {change.lines.length === 0 ? (
          <p>Nothing else changes.</p>
        ) : (
          <ul class="plain-list">
            {change.lines.map((line) => (
              <li key={line.key}>{line.words}</li>
            ))}
          </ul>
        )}
        <p>{change.sum}</p>
      </div>
    )}
  </Part>
);
