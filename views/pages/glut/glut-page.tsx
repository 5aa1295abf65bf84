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
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { type CautionLine, FoldedCautions } from '../canning-day/process-card.tsx';

export interface GlutWayCard {
  readonly key: string;
  readonly item: ItemLabel;
  /** `3 batches from 36 lb; 4 lb left over` */
  readonly batches: string;
  /** `The year still needs 12 pints, 2 batches.` */
  readonly needed: string;
  readonly facts: readonly { readonly words: string; readonly value: string }[];
}

interface Line {
  readonly key: string;
  readonly words: string;
}

export interface GlutChange {
  readonly now: readonly Line[];
  readonly freeze: string | null;
  readonly left: string | null;
  /** Other batches of the near weeks that change. */
  readonly moved: readonly Line[];
  /** Batches that the year makes fewer or more of. */
  readonly overYear: readonly Line[];
  readonly sum: string;
}

export type GlutPlan =
  | { readonly state: 'to ask'; readonly keys: FormKeys }
  | { readonly state: 'none here' }
  | { readonly state: 'not kept' }
  | { readonly state: 'answered'; readonly change: GlutChange }
  | { readonly state: 'failed'; readonly keys: FormKeys };

export interface GlutPageProps {
  readonly frame: Frame;
  readonly values: { readonly crop: string; readonly amount: string; readonly unit: string };
  readonly problems: FieldProblems;
  readonly units: readonly Choice[];
  /** Names of the crops something can be made of. */
  readonly crops: readonly string[];
  /** `40 lb of plums can become`; null before a crop and an amount are known. */
  readonly title: string | null;
  readonly ways: readonly GlutWayCard[];
  /** What stands beside every processing time. */
  readonly cautions: readonly CautionLine[];
  readonly plan: GlutPlan;
}

/** Too much of a crop at once: what it can become, and what the year does with it. */
export const GlutPage = (props: GlutPageProps) => (
  <Page
    frame={props.frame}
    title="Too much at once"
    section="harvest"
    about="What a glut of a crop can become, what it needs, and what the plan makes of it."
    wide
  >
    <p class="page-back">
      <a href="/harvest">Harvest</a>
    </p>
    <h1 class="page-title">Too much at once</h1>
    <p class="page-line">Say what you have. What it can become is worked out at once.</p>
    <form method="get" action="/glut" class="form" aria-label="What you have">
      <div class="form-row">
        <InputField
          form="glut"
          name="crop"
          label="Crop"
          hint="Its plain name, like plums."
          value={props.values.crop}
          problem={props.problems.crop}
        />
        <InputField
          form="glut"
          name="amount"
          label="How much"
          inputMode="decimal"
          width="short"
          value={props.values.amount}
          problem={props.problems.amount}
        />
        <SelectField
          form="glut"
          name="unit"
          label="Unit"
          value={props.values.unit}
          choices={props.units}
          problem={props.problems.unit}
        />
      </div>
      {props.crops.length === 0 ? null : (
        <p class="hint">Something can be made here of: {props.crops.join('; ')}.</p>
      )}
      <p>
        <Button weight={props.title === null ? 'main' : 'plain'}>What can it become?</Button>
      </p>
    </form>
    {props.title === null ? null : (
      <Part title={props.title} id="ways" line="Each way by itself, not all of them together.">
        {props.ways.length === 0 ? (
          <EmptyState text="It does not fill one whole batch of anything that is kept here. Eat it fresh, or freeze it." />
        ) : (
          <ul class="glut-ways">
            {props.ways.map((way) => (
              <li key={way.key}>
                <h3>
                  <ItemName item={way.item} />
                </h3>
                <p>{way.batches}</p>
                <p>{way.needed}</p>
                <dl class="facts">
                  {way.facts.map((fact) => (
                    <div key={fact.words}>
                      <dt>{fact.words}</dt>
                      <dd>{fact.value}</dd>
                    </div>
                  ))}
                </dl>
              </li>
            ))}
          </ul>
        )}
        {props.ways.length === 0 ? null : <FoldedCautions cautions={props.cautions} />}
      </Part>
    )}
    {props.title === null || props.ways.length === 0 ? null : (
      <GlutPlanned plan={props.plan} values={props.values} />
    )}
  </Page>
);

/** The button, then what it answered. */
export const GlutPlanned = ({ plan, values }: Pick<GlutPageProps, 'plan' | 'values'>) => (
  <Part
    title="In the plan"
    id="glut-plan"
    line="The year is planned again with it, near the present plan. Nothing is changed until you pick it."
  >
    {plan.state === 'answered' ? <Changes change={plan.change} /> : null}
    {plan.state === 'none here' ? (
      <EmptyState text="The planner is not running here. Open the program with serve to plan with it." />
    ) : null}
    {plan.state === 'not kept' ? (
      <EmptyState
        text="Nothing you keep is made of it yet, so the plan has no place for it."
        action={{ words: 'Keep one of these first', href: '/items/new' }}
      />
    ) : null}
    {plan.state === 'failed' ? (
      <p class="banner banner-problem" role="alert">
        No plan with it was found in the time allowed. The plan you have is as it was; try again.
      </p>
    ) : null}
    {plan.state === 'to ask' || plan.state === 'failed' ? (
      <PostForm action="/glut/plan" keys={plan.keys} replaces="#glut-plan">
        <input type="hidden" name="crop" value={values.crop} />
        <input type="hidden" name="amount" value={values.amount} />
        <input type="hidden" name="unit" value={values.unit} />
        <p>
          <Button weight="main">Plan with it</Button>
        </p>
        <p class="hint">It takes some seconds.</p>
      </PostForm>
    ) : null}
  </Part>
);

const Changes = ({ change }: { change: GlutChange }) => (
  <div role="status">
    <h3>To make of it now</h3>
    {change.now.length === 0 ? (
      <p>Nothing: the year needs no more of it, or the kitchen has no hours for it.</p>
    ) : (
      <Lines lines={change.now} />
    )}
    {change.freeze === null ? null : <p>{change.freeze}</p>}
    {change.left === null ? null : <p>{change.left}</p>}
    <h3>What it displaces</h3>
    {change.moved.length + change.overYear.length === 0 ? (
      <p>Nothing else changes.</p>
    ) : (
      <Lines lines={[...change.moved, ...change.overYear]} />
    )}
    <p>{change.sum}</p>
  </div>
);

const Lines = ({ lines }: { lines: readonly Line[] }) => (
  <ul class="plain-list">
    {lines.map((line) => (
      <li key={line.key}>{line.words}</li>
    ))}
  </ul>
);
