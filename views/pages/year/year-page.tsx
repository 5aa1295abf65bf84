import { counted } from '../../../shared/counting.ts';
import type { YearAxis } from '../../charts/year-picture.tsx';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { BatchDays, type BatchDaysProps } from '../../parts/batch-days.tsx';
import { ButtonLink } from '../../parts/button.tsx';
import { EmptyState } from '../../parts/part.tsx';
import { PlanStatus, type PlanStatusProps } from '../../parts/plan-status.tsx';
import { WeekCard, WeekSlider } from './week-card.tsx';
import { WorthOfMore, type WorthProps } from './worth.tsx';
import { BoardAxis, BoardKey, YearBoards, type YearRow } from './year-boards.tsx';

/** One rung of wishes that gave way: what is missing of what, and why of which. */
export interface GivenWay {
  readonly key: string;
  readonly rung: string;
  readonly words: string;
  /** What was proven about it; null where nothing was asked. */
  readonly proof: string | null;
  readonly why: readonly { readonly words: string; readonly names: string }[];
}

/** A week in which the garden gives more than is put up: how much of what. */
export interface LeftOver {
  readonly key: string;
  readonly week: string;
  readonly words: string;
}

export interface YearPageProps {
  readonly frame: Frame;
  /** `With this plan, 3 of your 22 preserves will probably run out before you can make more.` */
  readonly summary: string;
  readonly axis: YearAxis;
  /** What is put up, and what is bought where it runs out; the soonest first. */
  readonly boards: readonly YearRow[];
  /** What is bought again before it runs out. */
  readonly bought: readonly YearRow[];
  /** Every day of the year's plan on which something is done before a canner load. */
  readonly stages: BatchDaysProps;
  /** Wishes that could not be met, by rung: what is missing of what. */
  readonly gaveWay: readonly GivenWay[];
  /** What the garden gives beyond what is put up, by week. */
  readonly leftOver: readonly LeftOver[];
  readonly plan: PlanStatusProps;
  /** What the plan takes as done that nobody has written down yet. */
  readonly countsOn: readonly {
    readonly key: string;
    readonly words: string;
    readonly step: { readonly words: string; readonly href: string };
  }[];
  /** Null without a plan or a planner. */
  readonly worth: WorthProps | null;
}

const marks = 'year';

/** What runs out before there is more, first, as boards with their words; the rest of the plan behind one touch each. */
export const YearPage = (props: YearPageProps) => (
  <Page
    frame={props.frame}
    title="The year"
    section="year"
    about="What is left of each item, how long it lasts, and what is still to make this year."
    wide
    moreCss={props.frame.assets.yearCss}
  >
    <h1 class="page-title">The year</h1>
    <p class="page-line">{props.summary}</p>
    <PlanStatus {...props.plan} />
    {props.countsOn.map(({ key, words, step }) => (
      <p key={key} class="counts-on">
        {words} <a href={step.href}>{step.words}</a>
      </p>
    ))}
    {props.boards.length + props.bought.length === 0 ? (
      <EmptyState
        text="No board hangs here yet: there is nothing to keep for the year."
        action={{ words: 'Choose something from the recipe book', href: '/items/new' }}
      />
    ) : (
      <section class="year-shelf" id="picture" aria-label="The year on the shelf">
        <div class="year-axis">
          <BoardAxis axis={props.axis} marks={marks} />
          <WeekSlider axis={props.axis} at={0} />
        </div>
        <WeekCard card={null} />
        <YearBoards rows={props.boards} axis={props.axis} marks={marks} />
        {props.bought.length === 0 ? null : (
          <details id="staples">
            <summary>{boughtWords(props)}</summary>
            <YearBoards rows={props.bought} axis={props.axis} marks={marks} />
          </details>
        )}
        <BoardKey marks={marks} />
      </section>
    )}
    <div class="year-folds">
      <BeforeTheCanner {...props.stages} />
      <GaveWay reasons={props.gaveWay} />
      <LeftOverByWeek weeks={props.leftOver} />
      {props.worth === null ? null : <WorthOfMore {...props.worth} />}
    </div>
    <p class="page-actions actions-in-line not-on-paper">
      <ButtonLink href="/targets">How much a year needs</ButtonLink>
      <ButtonLink href="/year/weeks">Hours, money and jars by week</ButtonLink>
      <ButtonLink href="/year/sheet">On one sheet, to print</ButtonLink>
      <ButtonLink href="/items/new">Add something to keep</ButtonLink>
    </p>
  </Page>
);

const boughtWords = ({ boards, bought }: Pick<YearPageProps, 'boards' | 'bought'>): string => {
  const others = boards.some((row) => row.makeVerb === 'Buy');
  return `${counted(bought.length, others ? 'other thing' : 'thing')} you buy`;
};

const BeforeTheCanner = (stages: BatchDaysProps) => {
  const [next] = stages.days;
  if (stages.days.length + stages.heldBack.length === 0) return null;
  return (
    <details open={stages.heldBack.length > 0}>
      <summary>{`Before the canner${next === undefined ? '' : `: next ${next.title}`}`}</summary>
      <div id="stages">
        <p class="quiet">When to soak, salt or drain what you can in this plan, and when to fill its jars.</p>
        <BatchDays days={stages} />
        <p class="more">
          <a href="/stages">Write down what is begun</a> · <a href="/stages/paper">To print</a>
        </p>
      </div>
    </details>
  );
};

const LeftOverByWeek = ({ weeks }: { weeks: YearPageProps['leftOver'] }) =>
  weeks.length === 0 ? null : (
    <details>
      <summary>More than you put up</summary>
      <div id="left-over">
        <p class="quiet">
          What your garden gives beyond what this plan puts up: to eat fresh, give away, freeze, sell or
          compost.
        </p>
        <dl class="gave-way">
          {weeks.map(({ key, week, words }) => (
            <div key={key}>
              <dt>{week}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
      </div>
    </details>
  );

const GaveWay = ({ reasons }: { reasons: YearPageProps['gaveWay'] }) =>
  reasons.length === 0 ? null : (
    <details>
      <summary>What doesn’t fit</summary>
      <div id="gave-way">
        <p class="quiet">Not everything fits this year. The most important comes first.</p>
        <dl class="gave-way">
          {reasons.map((reason) => (
            <div key={reason.key}>
              <dt>{reason.rung}</dt>
              <dd>{reason.words}</dd>
              {reason.proof === null ? null : <dd class="quiet small">{reason.proof}</dd>}
              {reason.why.map((why) => (
                <dd key={why.words} class="quiet small">
                  {why.words} ({why.names})
                </dd>
              ))}
            </div>
          ))}
        </dl>
      </div>
    </details>
  );
