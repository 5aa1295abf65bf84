import { Button } from './button.tsx';
import { fieldsWith, InputField } from './fields.tsx';
import { type FormKeys, PostForm } from './form.tsx';
import { Part } from './part.tsx';

/** One stage that may be begun, or that will be. */
export interface StageStep {
  readonly key: string;
  /** `Shred, salt and pack the cabbage under its own brine` */
  readonly what: string;
  /** `at 70 to 75 °F, 21 to 28 days in the crock`; empty at the last. */
  readonly wait: string;
  /** `from Sat, Aug 22, 9:00 AM to Sun, Aug 23, 9:00 AM`; null where it may be begun at any time. */
  readonly when: string | null;
  readonly isOpen: boolean;
  readonly action: string;
  readonly keys: FormKeys;
  readonly carried: readonly { readonly name: string; readonly value: string }[];
  /** Batches that are begun with it, to be changed; null where that is settled. */
  readonly batches: string | null;
}

export interface StagedBatch {
  readonly key: string;
  /** `1 batch, begun Wed, Aug 12, 9:00 PM` */
  readonly title: string;
  readonly done: readonly string[];
  /** `May go into the canner from …`, or why not yet. */
  readonly canner: string;
  readonly next: readonly StageStep[];
  readonly takeBack: { readonly action: string; readonly keys: FormKeys };
  readonly throwAway: { readonly action: string; readonly keys: FormKeys };
}

export interface StagedRecipe {
  readonly key: string;
  readonly name: string;
  /** `If you begin now, it can go into the canner on …`; null where nothing is left to begin. */
  readonly beginBy: string | null;
  /** The printed way that is followed, and the others; null where only one is printed. */
  readonly ways: {
    readonly followed: string;
    /** False while nobody chose one: then it is the first of its source. */
    readonly isChosen: boolean;
    /** `chosen by Anna on Aug 3` */
    readonly since: string;
    readonly others: readonly string[];
    readonly recipe: string;
    readonly keys: FormKeys;
  } | null;
  /** What is done on which day, for each planned load and each batch begun. */
  readonly calendars: readonly {
    readonly key: string;
    /** `1 batch, to can on Sat, Aug 22` */
    readonly title: string;
    readonly heldBack: string | null;
    readonly lines: readonly { readonly key: string; readonly words: string; readonly isDone: boolean }[];
  }[];
  readonly batches: readonly StagedBatch[];
  readonly first: readonly StageStep[];
}

export interface StagesProps {
  /** Address of the page, to come back to. */
  readonly from: string;
  readonly recipes: readonly StagedRecipe[];
  /** What was sent and could not be written down. */
  readonly problem: string | null;
}

/** What is soaked, salted, fermented or left to stand before its canner load, and since when. */
export const Stages = ({
  stages,
  title = 'Before the canner',
  saysWhy = true,
}: {
  stages: StagesProps;
  title?: string;
  /** False where what holds a batch back is said of it already. */
  saysWhy?: boolean;
}) =>
  stages.recipes.length === 0 ? null : (
    <Part
      title={title}
      id="stages"
      line={
        saysWhy
          ? 'Each wait is as long as the guide prints it. A batch cannot go into the canner until you have written down that it waited long enough.'
          : undefined
      }
    >
      {stages.problem === null ? null : (
        <p class="banner banner-problem" role="alert">
          {stages.problem}
        </p>
      )}
      {stages.recipes.map((recipe) => (
        <Recipe key={recipe.key} recipe={recipe} from={stages.from} />
      ))}
    </Part>
  );

const Recipe = ({ recipe, from }: { recipe: StagedRecipe; from: string }) => (
  <article class="staged" aria-labelledby={`stages-of-${recipe.key}`}>
    <h3 id={`stages-of-${recipe.key}`}>{recipe.name}</h3>
    {recipe.ways === null ? null : <Ways ways={recipe.ways} of={recipe.name} from={from} />}
    {recipe.calendars.map((calendar) => (
      <Calendar key={calendar.key} calendar={calendar} />
    ))}
    {recipe.beginBy === null ? null : <p class="part-words">{recipe.beginBy}</p>}
    {recipe.batches.map((batch) => (
      <Batch key={batch.key} batch={batch} name={recipe.name} from={from} />
    ))}
    {recipe.first.length === 0 ? null : (
      <ul class="stage-steps">
        {recipe.first.map((step) => (
          <Step key={step.key} step={step} from={from} verb="Begin" of={recipe.name} />
        ))}
      </ul>
    )}
  </article>
);

const Ways = ({ ways, of, from }: { ways: NonNullable<StagedRecipe['ways']>; of: string; from: string }) => (
  <div class="staged-ways">
    <p>
      Way: <strong>{ways.followed}</strong> <span class="quiet">{ways.since}</span>
    </p>
    <PostForm action="/stages/ways" keys={ways.keys} class="stage-form" label={`Way of ${of}`}>
      <input type="hidden" name="from" value={from} />
      <input type="hidden" name="recipe" value={ways.recipe} />
      <span>Use this way:</span>
      {[...(ways.isChosen ? [] : [ways.followed]), ...ways.others].map((way) => (
        <Button key={way} weight="quiet" name="way" value={way} label={`Use this way: ${way} (${of})`}>
          {way}
        </Button>
      ))}
    </PostForm>
  </div>
);

const Calendar = ({ calendar }: { calendar: StagedRecipe['calendars'][number] }) => (
  <div class="staged-calendar">
    <h4>{calendar.title}</h4>
    {calendar.heldBack === null ? null : <p class="banner banner-problem">{calendar.heldBack}</p>}
    <ul class="batch-day-lines">
      {calendar.lines.map(({ key, words, isDone }) => (
        <li key={key} class={isDone ? 'is-done' : undefined}>
          <span class="batch-day-mark" aria-hidden="true">
            {isDone ? '☑' : '☐'}
          </span>{' '}
          {words}
        </li>
      ))}
    </ul>
  </div>
);

const Batch = ({ batch, name, from }: { batch: StagedBatch; name: string; from: string }) => (
  <div class="staged-batch">
    <h4>{batch.title}</h4>
    <ul class="bullets">
      {batch.done.map((words) => (
        <li key={words}>{words}</li>
      ))}
    </ul>
    <p>{batch.canner}</p>
    <ul class="stage-steps">
      {batch.next.map((step) => (
        <Step key={step.key} step={step} from={from} verb="Now" of={name} />
      ))}
    </ul>
    <details class="fold">
      <summary>A mistake, or gone bad</summary>
      <div class="form-row">
        <PostForm action={batch.takeBack.action} keys={batch.takeBack.keys} class="inline-form">
          <input type="hidden" name="from" value={from} />
          <Button weight="quiet">Take the last stage back</Button>
        </PostForm>
        <PostForm action={batch.throwAway.action} keys={batch.throwAway.keys} class="inline-form">
          <input type="hidden" name="from" value={from} />
          <Button weight="quiet">Thrown away</Button>
        </PostForm>
      </div>
    </details>
  </div>
);

const doneNow = (verb: string): string => (verb === 'Begin' ? 'Begun now' : 'Done now');

const Step = ({ step, from, verb, of }: { step: StageStep; from: string; verb: string; of: string }) => (
  <li>
    <p>
      {step.what}
      {step.wait === '' ? null : <span class="quiet"> {step.wait}</span>}
    </p>
    {step.when === null ? null : <p class="quiet">{step.when}</p>}
    {step.isOpen ? <StageForm step={step} from={from} verb={verb} of={of} /> : null}
  </li>
);

/** Writes a stage down: now with one press, or with another time. */
export const StageForm = ({
  step,
  from,
  verb,
  of,
}: {
  step: StageStep;
  from: string;
  verb: string;
  of: string;
}) => {
  const form = fieldsWith(step.key, { begunAt: '', batches: step.batches ?? '' });
  return (
    <PostForm action={step.action} keys={step.keys} class="stage-form" label={`${verb}: ${step.what}`}>
      <input type="hidden" name="from" value={from} />
      {step.carried.map(({ name, value }) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <Button weight="main" label={`${doneNow(verb)}: ${step.what} (${of})`}>
        {doneNow(verb)}
      </Button>
      <details class="fold">
        <summary>Another time{step.batches === null ? '' : ' or more batches'}</summary>
        <div class="form-row">
          <InputField
            form={form}
            name="begunAt"
            type="datetime-local"
            label="When"
            hint="Leave blank for now."
          />
          {step.batches === null ? null : (
            <InputField form={form} name="batches" label="Batches" inputMode="numeric" width="short" />
          )}
        </div>
      </details>
    </PostForm>
  );
};
