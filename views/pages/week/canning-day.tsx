import type { JarSize } from '../../../shared/jar.ts';
import { JarRow } from '../../charts/jar-row.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { type CautionLine, FoldedCautions } from '../canning-day/process-card.tsx';

/** How long here, from one published row, or why no time can be given. */
export type ProcessLine =
  | {
      readonly kind: 'schedule';
      /** `35 min` */
      readonly minutes: string;
      /** `11 psi, dial gauge`; null outside the pressure canner. */
      readonly pressure: string | null;
      /** `in boiling water at 2,300 ft` */
      readonly how: string;
      readonly source: string;
    }
  | { readonly kind: 'none-needed'; readonly words: string }
  | {
      readonly kind: 'refused';
      readonly words: string;
      readonly action: { words: string; href: string } | null;
    };

/** What the person has said about a batch in this week; `free` leaves it to the plan. */
export interface DecisionProps {
  readonly state: 'free' | 'pinned' | 'ruled-out';
  readonly recipeId: string;
  readonly recipeName: string;
  readonly week: string;
  readonly batches: number;
  readonly keys: FormKeys;
}

export interface MakeProps {
  readonly key: string;
  readonly item: ItemLabel;
  /** The household's own name alone. */
  readonly called: string;
  readonly batches: string;
  /** `14 pints`, or what comes of it when it is not put up in jars. */
  readonly comes: string;
  /** As they will stand there; null for what is weighed. */
  readonly jars: { readonly count: number; readonly size: JarSize | null } | null;
  /** Where such jars stand already: `Cellar shelves`; null where none do. */
  readonly place: string | null;
  /** `2 loads in the big canner`; null without a canner. */
  readonly loads: string | null;
  /** What becomes of a jar that alone would need a load; null where there is none. */
  readonly aside: string | null;
  readonly handsOn: string;
  readonly produce: string | null;
  readonly process: ProcessLine;
  readonly decision: DecisionProps;
}

export interface DayOfWeekProps {
  readonly key: string;
  /** `Saturday, August 22` */
  readonly title: string;
  /** `today`, `in 3 days` */
  readonly when: string;
  /** `5 h 10 min in the kitchen` */
  readonly time: string;
  readonly makes: readonly MakeProps[];
  /** Empty where nothing of the day is canned. */
  readonly cautions: readonly CautionLine[];
}

/** One day at the stove: what is made, how much comes of it, and how long it is processed here. */
export const DayOfWeek = ({ day }: { day: DayOfWeekProps }) => (
  <article class="canning-day" aria-labelledby={`day-${day.key}`}>
    <header>
      <h3 id={`day-${day.key}`} class="day-title">
        {day.title}
      </h3>
      <p class="quiet">
        {day.when}, {day.time}
      </p>
    </header>
    <DayJars makes={day.makes} />
    <ol class="makes">
      {day.makes.map((make) => (
        <Make key={make.key} make={make} />
      ))}
    </ol>
    {day.cautions.length === 0 ? null : <FoldedCautions cautions={day.cautions} />}
    <p class="more">
      <a class="button button-plain" href={`/canning-day?day=${day.key}`}>
        Work through this day<span class="heard-only">{`: ${day.title}`}</span>
      </a>
    </p>
  </article>
);

/** What the day puts on the shelf, jar by jar, each over its name and the place such jars stand in. */
const DayJars = ({ makes }: { makes: readonly MakeProps[] }) =>
  makes.every(({ jars }) => jars === null) ? null : (
    <ul class="day-jars" aria-label="What comes of it">
      {makes.map(({ key, item, called, jars, comes, place }) => (
        <li key={key} class={`family-${item.family}`}>
          {jars === null ? null : <JarRow {...jars} perRow={12} />}
          <span>
            <strong>{comes}</strong> {called}
          </span>
          {place === null ? null : <span class="quiet">{`to ${place}`}</span>}
        </li>
      ))}
    </ul>
  );

const Make = ({
  make: { item, batches, comes, loads, aside, handsOn, produce, process, decision },
}: {
  make: MakeProps;
}) => (
  <li class="make">
    <p class="make-what">
      <ItemName item={item} />
      <span class="make-comes stamp">{comes}</span>
    </p>
    <p class="make-how">
      {[batches, produce, loads, `${handsOn} hands-on`].filter((words) => words !== null).join(' · ')}
    </p>
    {aside === null ? null : <p class="make-how">{aside}</p>}
    <ProcessWords process={process} />
    {item.href === undefined ? null : (
      <p class="make-why">
        <a href={`${item.href}#why`}>
          Why this week?<span class="heard-only">{` ${item.name}`}</span>
        </a>
      </p>
    )}
    <Decision {...decision} />
  </li>
);

const decisionWords: Readonly<Record<DecisionProps['state'], string | null>> = {
  free: null,
  pinned: 'You keep it in this week.',
  'ruled-out': 'You ruled it out for this week. Plan again to see what changes.',
};

/** Keep a batch in its week, rule it out there, or leave it to the plan again. */
export const Decision = ({ state, recipeId, recipeName, week, batches, keys }: DecisionProps) => (
  <PostForm action="/plan/decisions" keys={keys} class="make-decision" label={`${recipeName} in this week`}>
    <input type="hidden" name="recipeId" value={recipeId} />
    <input type="hidden" name="week" value={week} />
    <input type="hidden" name="batches" value={String(batches)} />
    {decisionWords[state] === null ? null : <span>{decisionWords[state]}</span>}
    {state === 'free' ? (
      <>
        <Button weight="quiet" name="decision" value="pinned" label={`Keep in this week: ${recipeName}`}>
          Keep in this week
        </Button>
        <Button weight="quiet" name="decision" value="ruled-out" label={`Not in this week: ${recipeName}`}>
          Not in this week
        </Button>
      </>
    ) : (
      <Button weight="quiet" name="decision" value="free" label={`Let the plan decide: ${recipeName}`}>
        Let the plan decide
      </Button>
    )}
  </PostForm>
);

const ProcessWords = ({ process }: { process: ProcessLine }) => {
  switch (process.kind) {
    case 'schedule':
      return (
        <p class="process">
          <span class="process-time stamp">
            {process.minutes}
            {process.pressure === null ? null : ` at ${process.pressure}`}
          </span>{' '}
          {process.how}
          <span class="process-source">{process.source}</span>
        </p>
      );
    case 'none-needed':
      return <p class="process">{process.words}</p>;
    case 'refused':
      return (
        <p class="process process-refused">
          <strong>No time can be given. </strong>
          {process.words}
          {process.action === null ? null : (
            <>
              {' '}
              <a href={process.action.href}>{process.action.words}</a>
            </>
          )}
        </p>
      );
  }
};
