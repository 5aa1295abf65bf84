import type { FormValues } from '../../../shared/schemas/form-fields.ts';
import type { glutForm } from '../../../shared/schemas/glut.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormFields, InputField, SelectField } from '../../parts/fields.tsx';
import type { Choice, FormKeys } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, FoldedPart, Part } from '../../parts/part.tsx';
import { type CautionLine, FoldedCautions } from '../canning-day/process-card.tsx';
import { type AnswerColumn, GlutAnswers } from './glut-answers.tsx';
import { GlutInPlan, type GlutInPlanProps } from './glut-in-plan.tsx';

export interface GlutWayCard {
  readonly key: string;
  readonly item: ItemLabel;
  /** `3 batches from 36 lb; 4 lb left over` */
  readonly batches: string;
  /** `The year still needs 12 pints, 2 batches.` */
  readonly needed: string;
  readonly facts: readonly { readonly words: string; readonly value: string }[];
}

export interface GlutPageProps {
  readonly frame: Frame;
  readonly form: FormFields<FormValues<typeof glutForm>>;
  readonly units: readonly Choice[];
  /** Names of the crops something can be made of. */
  readonly crops: readonly string[];
  /** `40 lb of plums can become`; null before a crop and an amount are known. */
  readonly title: string | null;
  readonly ways: readonly GlutWayCard[];
  /** What stands beside every processing time. */
  readonly cautions: readonly CautionLine[];
  /** The mixes to choose from; none where nothing fits. */
  readonly answers: readonly AnswerColumn[];
  /** Why there is nothing to choose, or what to know before choosing; null where nothing is. */
  readonly note: string | null;
  /** Ways of the book to freeze it that are not kept yet. */
  readonly toFreeze: readonly { readonly key: string; readonly words: string; readonly href: string }[];
  /** Nothing that is kept is made of the crop. */
  readonly isKept: boolean;
  /** What forms carry; null where no planner runs. */
  readonly keys: (() => FormKeys) | null;
  /** A glut that is in the plan. */
  readonly inPlan: GlutInPlanProps | null;
}

/** Too much of a crop at once: what it can become, side by side, and what the year does with it. */
export const GlutPage = (props: GlutPageProps) => (
  <Page
    frame={props.frame}
    title="Too much at once"
    section="harvest"
    about="What a glut of a crop can become, what it needs, and what the plan makes of it."
    wide
    moreCss={props.frame.assets.comparedCss}
  >
    <p class="page-back">
      <a href="/harvest">Harvest</a>
    </p>
    <h1 class="page-title">Too much at once</h1>
    {props.inPlan === null ? null : <GlutInPlan {...props.inPlan} />}
    <p class="page-line">Tell us what you have, and see right away what it can become.</p>
    <form method="get" action="/glut#ways" class="form" aria-label="What you have">
      <div class="form-row">
        <InputField form={props.form} name="crop" label="Crop" suggestions={props.crops} />
        <InputField form={props.form} name="amount" label="How much" inputMode="decimal" width="short" />
        <SelectField form={props.form} name="unit" label="Unit" choices={props.units} />
      </div>
      {props.crops.length === 0 || props.title !== null ? null : (
        <p class="hint">You have recipes for: {props.crops.join('; ')}.</p>
      )}
      <p>
        <Button weight="main">What can it become?</Button>
      </p>
    </form>
    {props.title === null ? null : <Ways {...props} title={props.title} />}
  </Page>
);

const Ways = ({
  title,
  ways,
  answers,
  note,
  form,
  keys,
  isKept,
  toFreeze,
  cautions,
}: GlutPageProps & { title: string }) => (
  <>
    <Part title={title} id="ways" line={note ?? undefined}>
      {ways.length === 0 ? (
        <EmptyState text="It is less than one batch of anything you keep. Eat it fresh, or freeze it." />
      ) : null}
      {ways.length > 0 && !isKept ? (
        <EmptyState
          text="You don’t keep anything made of it yet, so the plan has no place for it."
          action={{ words: 'Add one of these first', href: '/items/new' }}
        />
      ) : null}
      {answers.length === 0 ? null : <GlutAnswers answers={answers} values={form.values} keys={keys} />}
      {answers.length > 0 && keys === null ? (
        <EmptyState text="Nothing can be planned in this copy. Start the program with serve to plan with it." />
      ) : null}
      {toFreeze.length === 0 ? null : (
        <p class="small">
          To freeze it by a published way, and have that planned, eaten and mixed in too, add{' '}
          {toFreeze.map(({ key, words, href }, at) => (
            <>
              {at === 0 ? '' : ' or '}
              <a key={key} href={href}>
                {words}
              </a>
            </>
          ))}
          .
        </p>
      )}
    </Part>
    {ways.length === 0 ? null : (
      <FoldedPart
        title="Each way by itself"
        id="each-way"
        line="All of it in one recipe: jars, lids, ingredients, time"
        open={!isKept}
      >
        <ul class="glut-ways">
          {ways.map((way) => (
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
        <FoldedCautions cautions={cautions} />
      </FoldedPart>
    )}
  </>
);
