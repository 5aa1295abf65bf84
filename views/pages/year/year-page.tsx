import { counted } from '../../../shared/counting.ts';
import { PictureKey } from '../../charts/picture-key.tsx';
import { WeeksAgainstLimit, type WeeksAgainstLimitProps } from '../../charts/weeks-against-limit.tsx';
import { YearChart, type YearChartProps } from '../../charts/year-picture.tsx';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { BatchDays, type BatchDaysProps } from '../../parts/batch-days.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { PlanStatus, type PlanStatusProps } from '../../parts/plan-status.tsx';
import { WorthOfMore, type WorthProps } from './worth.tsx';
import { type YearRow, YearTable } from './year-table.tsx';

export type PictureOfYear = Omit<YearChartProps, 'form' | 'id'>;

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
  readonly preserves: readonly YearRow[];
  readonly staples: readonly YearRow[];
  readonly picture: PictureOfYear;
  /** Every day of the year's plan on which something is done before a canner load. */
  readonly stages: BatchDaysProps;
  /** Wishes that could not be met, by rung: what is missing of what. */
  readonly gaveWay: readonly GivenWay[];
  /** What the garden gives beyond what is put up, by week. */
  readonly leftOver: readonly LeftOver[];
  readonly hours: WeeksAgainstLimitProps | null;
  readonly money: WeeksAgainstLimitProps | null;
  /** One picture a jar size; empty without a plan. */
  readonly jars: readonly WeeksAgainstLimitProps[];
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

/** What runs out before there is more, first as words, then as a picture. */
export const YearPage = (props: YearPageProps) => (
  <Page
    frame={props.frame}
    title="The year"
    section="year"
    about="What is left of each item, how long it lasts, and what is still to make this year."
    wide
  >
    <h1 class="page-title">The year</h1>
    <p class="page-line">{props.summary}</p>
    <PlanStatus {...props.plan} />
    {props.countsOn.map(({ key, words, step }) => (
      <p key={key} class="counts-on">
        {words} <a href={step.href}>{step.words}</a>
      </p>
    ))}
    <Part title="What you put up" id="preserves">
      {props.preserves.length === 0 ? (
        <EmptyState
          text="No preserve is kept yet."
          action={{ words: 'Choose something from the recipe book', href: '/items/new' }}
        />
      ) : (
        <YearTable caption="What you put up, the soonest to run out first" rows={props.preserves} />
      )}
      <p class="more">
        <a href="/items/new">Add something to keep</a>
      </p>
    </Part>
    <Part title="The year on the shelf" id="picture" class="picture-part">
      <PictureForScreens id="year" picture={props.picture} />
      <p class="more not-on-paper">
        <a href="/year/sheet">On one sheet, to print</a>
      </p>
    </Part>
    {props.staples.length === 0 ? null : (
      <Part title="What you buy" id="staples">
        <YearTable caption="What you buy, the soonest to run out first" rows={props.staples} />
      </Part>
    )}
    {props.stages.days.length + props.stages.heldBack.length === 0 ? null : (
      <Part
        title="Before the canner"
        id="stages"
        line="When what is canned in this plan is soaked, salted or left to stand, and when its jars are filled."
      >
        <SoonestDays {...props.stages} />
        <p class="more">
          <a href="/stages">Write down what is begun</a> · <a href="/stages/paper">To print</a>
        </p>
      </Part>
    )}
    <GaveWay reasons={props.gaveWay} />
    <LeftOverByWeek weeks={props.leftOver} />
    {props.hours === null && props.money === null ? null : (
      <div class="side-by-side">
        {props.hours === null ? null : (
          <Part title="Kitchen hours by week" id="hours">
            <WeeksAgainstLimit {...props.hours} />
          </Part>
        )}
        {props.money === null ? null : (
          <Part title="Money by week" id="money">
            <WeeksAgainstLimit {...props.money} />
          </Part>
        )}
      </div>
    )}
    <JarsBySize jars={props.jars} />
    {props.worth === null ? null : <WorthOfMore {...props.worth} />}
  </Page>
);

const soonestDays = 3;

/** The next days at once; the rest of the year waits to be opened. */
const SoonestDays = (stages: BatchDaysProps) => {
  const later = stages.days.slice(soonestDays);
  return (
    <>
      <BatchDays days={{ ...stages, days: stages.days.slice(0, soonestDays) }} />
      {later.length === 0 ? null : (
        <details>
          <summary>{counted(later.length, 'more day')} of this plan</summary>
          <BatchDays days={{ ...stages, heldBack: [], days: later }} />
        </details>
      )}
    </>
  );
};

const JarsBySize = ({ jars }: Pick<YearPageProps, 'jars'>) =>
  jars.length === 0 ? null : (
    <Part
      title="Jars by size"
      id="jars"
      line="Jars that hold something at each week’s end, under how many there are. Between the two are the empty ones."
    >
      <div class="jar-pictures">
        {jars.map((picture) => (
          <WeeksAgainstLimit key={picture.id} {...picture} />
        ))}
      </div>
    </Part>
  );

/** The same picture drawn for a wide screen and paper, for a middling one and for a phone; the page shows one of them. */
export const PictureForScreens = ({ id, picture }: { id: string; picture: PictureOfYear }) => (
  <figure class="picture">
    <YearChart {...picture} id={`${id}-wide`} form="wide" />
    <YearChart {...picture} id={`${id}-middle`} form="middle" />
    <YearChart {...picture} id={`${id}-narrow`} form="narrow" />
    <figcaption>
      <KeyHatch id={`${id}-key-hatch`} />
      <PictureKey hatch={`${id}-key-hatch`} />
      <p>
        Each board has its own height: the number on its left is what stands now, the small one on its right
        the most it may hold. Follow a board to its own page.
      </p>
    </figcaption>
  </figure>
);

/** The picture in its widest form alone, with its key. */
export const YearDrawing = ({ id, picture }: { id: string; picture: PictureOfYear }) => (
  <figure class="picture">
    <YearChart {...picture} id={`${id}-wide`} form="wide" />
    <figcaption>
      <KeyHatch id={`${id}-key-hatch`} />
      <PictureKey hatch={`${id}-key-hatch`} />
    </figcaption>
  </figure>
);

/** A pattern defined in a drawing that is not shown does not paint elsewhere, so the key brings its own. */
const KeyHatch = ({ id }: { id: string }) => (
  <svg class="heard-only" aria-hidden="true" width="1" height="1">
    <defs>
      <pattern id={id} width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line class="harvest-line" x1="0" y1="0" x2="0" y2="5" />
      </pattern>
    </defs>
  </svg>
);

const LeftOverByWeek = ({ weeks }: { weeks: YearPageProps['leftOver'] }) =>
  weeks.length === 0 ? null : (
    <Part
      title="More than you put up"
      id="left-over"
      line="What your garden gives beyond what this plan puts up: to eat fresh, give away, freeze, sell or compost."
    >
      <dl class="gave-way">
        {weeks.map(({ key, week, words }) => (
          <div key={key}>
            <dt>{week}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
    </Part>
  );

const GaveWay = ({ reasons }: { reasons: YearPageProps['gaveWay'] }) =>
  reasons.length === 0 ? null : (
    <Part
      title="What had to give way"
      id="gave-way"
      line="Not every wish fits this year. The first line weighs most; the lower ones give way first."
    >
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
    </Part>
  );
