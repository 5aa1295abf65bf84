import { counted } from '../../../shared/counting.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { BatchDays, type BatchDaysProps } from '../../parts/batch-days.tsx';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { hasProblems } from '../../parts/fields.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { LineTick, type LineTickProps, type SettledLine, SettledLines } from '../../parts/line-tick.tsx';
import { type NoticeLine, NoticeList } from '../../parts/notice-list.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { PhoneFold } from '../../parts/phone-fold.tsx';
import { PlanStatus, type PlanStatusProps } from '../../parts/plan-status.tsx';
import { Troubles } from '../../parts/troubles.tsx';
import { errandWhere } from '../../words/sentences.ts';
import { DayOfWeek, type DayOfWeekProps, Decision, type DecisionProps } from './canning-day.tsx';

/** Something to fetch. */
export interface Errand {
  readonly key: string;
  /** `42 lb` */
  readonly amount: string;
  /** `about 1¼ bushels`; empty of what has no trade measure. */
  readonly about: string;
  /** `Peaches from Hill orchard` */
  readonly what: string;
  /** `Pick there`, `For the pantry` */
  readonly where: string;
  /** Null for what costs nothing. */
  readonly cost: string | null;
  readonly tick: LineTickProps;
}

/** What to fetch by one day. */
export interface Trip {
  readonly key: string;
  /** `By Thursday, August 20` */
  readonly by: string;
  readonly errands: readonly Errand[];
}

export interface EatFirstRow {
  readonly key: string;
  readonly item: ItemLabel;
  /** `3 jars of the 12 Aug batch, cellar` */
  readonly which: string;
  /** `best until Sep 30` */
  readonly until: string;
}

export interface WeekAhead {
  readonly key: string;
  readonly week: string;
  /** `Peach halves 14 quarts` */
  readonly makes: readonly { readonly key: string; readonly item: ItemLabel; readonly comes: string }[];
  /** `18 lb tomatoes, sugar` */
  readonly buy: string;
  readonly time: string;
  readonly spend: string;
}

export interface ThisWeekPageProps {
  readonly frame: Frame;
  /** The week's name: `Week of Aug 17`. */
  readonly week: string;
  /** What the week asks for, in one sentence. */
  readonly summary: string;
  readonly days: readonly DayOfWeekProps[];
  /** Planned for days behind us, and nothing was said of it: done, moved or dropped? */
  readonly passed: readonly PassedProps[];
  /** `Plum jam, 1 batch`: what was written down as made this week. */
  readonly done: readonly string[];
  /** What is done on which day of the week before and after the canner, and the first day of the next. */
  readonly beforeAndAfter: BatchDaysProps;
  /** Something planned or begun waits before its load: the page of all stages is worth a link. */
  readonly hasStages: boolean;
  /** Recipes ruled out for this week that the plan no longer holds. */
  readonly ruledOut: readonly DecisionProps[];
  readonly trips: readonly Trip[];
  readonly errandTotal: string | null;
  /** What of this week's errands was bought or skipped. */
  readonly settled: readonly SettledLine[];
  readonly eatFirst: readonly EatFirstRow[];
  readonly notices: readonly NoticeLine[];
  readonly moreNotices: number;
  readonly ahead: readonly WeekAhead[];
  readonly plan: PlanStatusProps;
  /** What the program could not do by itself. */
  readonly troubles?: readonly string[];
}

/** `Saturday, August 15: 16 pints Bread-and-butter pickles, 7 to 9 pints Dill pickles`: a later day of the week can wait on a phone. */
const laterDay = ({ title, makes }: DayOfWeekProps): string =>
  `${title}: ${makes.map(({ comes, called }) => `${comes} ${called}`).join(', ')}`;

/** What to do on which day, what to eat first, what to know, and what comes. */
export const ThisWeekPage = (props: ThisWeekPageProps) => (
  <Page
    frame={props.frame}
    title="This week"
    section="week"
    about="What to can, pick, buy and eat this week, and what comes in the next four."
    wide
  >
    <p class="page-kicker">This week</p>
    <h1 class="page-title">{props.week}</h1>
    <p class="page-line">{props.summary}</p>
    <Troubles troubles={props.troubles ?? []} />
    {props.frame.isDemo ? (
      <p class="own-household">
        This is a demo household. <a href="/start">Set up your own</a>
      </p>
    ) : null}
    <div id="plan" class="not-on-paper">
      <PlanStatus {...props.plan} />
    </div>
    <div class="two-columns">
      <div>
        <Part title="In the kitchen" id="kitchen-days">
          <Passed passed={props.passed} />
          {props.done.length === 0 ? null : (
            <p class="quiet done-this-week">{`Done this week: ${props.done.join('; ')}.`}</p>
          )}
          {props.days.length === 0 ? (
            <EmptyState
              text={
                props.done.length === 0
                  ? 'Nothing is planned at the stove this week.'
                  : 'Nothing more is planned at the stove this week.'
              }
            />
          ) : null}
          {props.days.map((day, at) =>
            at === 0 ? (
              <DayOfWeek key={day.key} day={day} />
            ) : (
              <PhoneFold key={day.key} words={laterDay(day)}>
                <DayOfWeek day={day} />
              </PhoneFold>
            ),
          )}
          <RuledOut decisions={props.ruledOut} />
        </Part>
        <BeforeAndAfter days={props.beforeAndAfter} hasStages={props.hasStages} />
        <Errands trips={props.trips} total={props.errandTotal} settled={props.settled} />
      </div>
      <div>
        <EatFirst rows={props.eatFirst} />
        <Notices notices={props.notices} more={props.moreNotices} open={props.frame.openNotices} />
      </div>
    </div>
    <Ahead weeks={props.ahead} />
  </Page>
);

export interface PassedProps {
  readonly key: string;
  /** `Plum jam, 1 batch` */
  readonly what: string;
  /** `Saturday, August 22, 2 days ago` */
  readonly day: string;
  /** Where what was done is written down. */
  readonly writeDown: string;
  readonly recipeId: string;
  readonly week: string;
  readonly batches: number;
  readonly keys: () => FormKeys;
}

const Passed = ({ passed }: { passed: readonly PassedProps[] }) => (
  <>
    {passed.map((one) => (
      <article key={one.key} class="canning-day passed-session">
        <p>
          <strong>{one.what}</strong> <span class="quiet">{one.day}</span>
          {'. Done, moved or dropped?'}
        </p>
        <PostForm action={one.writeDown} keys={one.keys()} class="make-decision" label={`${one.what}: done`}>
          <Button label={`Done, write it down: ${one.what}`}>Done: write it down</Button>
        </PostForm>
        <PostForm
          action="/plan/passed"
          keys={one.keys()}
          class="make-decision"
          label={`${one.what}: done, moved or dropped`}
        >
          <input type="hidden" name="recipeId" value={one.recipeId} />
          <input type="hidden" name="week" value={one.week} />
          <input type="hidden" name="batches" value={String(one.batches)} />
          <Button weight="quiet" name="answer" value="moved" label={`Moved to the next session: ${one.what}`}>
            Moved to the next session
          </Button>
          <Button weight="quiet" name="answer" value="dropped" label={`Dropped: ${one.what}`}>
            Dropped
          </Button>
        </PostForm>
      </article>
    ))}
  </>
);

const BeforeAndAfter = ({ days, hasStages }: { days: BatchDaysProps; hasStages: boolean }) =>
  days.days.length + days.heldBack.length === 0 && !hasStages ? null : (
    <Part title="Before and after the canner" id="stages">
      {days.days.length === 0 ? (
        <EmptyState text="Nothing is to be begun, drained or checked this week." />
      ) : null}
      <BatchDays days={{ ...days, days: days.days.slice(0, 2) }} />
      {days.days.length <= 2 ? null : (
        <PhoneFold words={counted(days.days.length - 2, 'more day', 'more days')}>
          <BatchDays days={{ ...days, days: days.days.slice(2), heldBack: [] }} />
        </PhoneFold>
      )}
      <p class="more">
        <a href="/stages">Everything that soaks or ferments first</a> · <a href="/stages/paper">To print</a>
      </p>
    </Part>
  );

const RuledOut = ({ decisions }: { decisions: readonly DecisionProps[] }) =>
  decisions.length === 0 ? null : (
    <ul class="plain-list">
      {decisions.map((decision) => (
        <li key={decision.recipeId}>
          <strong>{decision.recipeName}</strong>
          <Decision {...decision} />
        </li>
      ))}
    </ul>
  );

const Errands = ({
  trips,
  total,
  settled,
}: {
  trips: readonly Trip[];
  total: string | null;
  settled: readonly SettledLine[];
}) => (
  <Part title="Pick and buy" id="pick-and-buy" line={total ?? undefined}>
    {trips.length === 0 ? (
      <EmptyState
        text={settled.length === 0 ? 'Nothing to fetch this week.' : 'Nothing more to fetch this week.'}
      />
    ) : null}
    {trips.map((trip, at) => (
      <div key={trip.key} class="trip">
        {at === 0 ? (
          <>
            <h3>{trip.by}</h3>
            <ErrandList errands={trip.errands} />
          </>
        ) : (
          <>
            <h3 class="on-wide">{trip.by}</h3>
            <PhoneFold
              words={`${trip.by}: ${counted(trip.errands.length, 'thing')}`}
              open={trip.errands.some(({ tick }) => isAsked(tick))}
            >
              <ErrandList errands={trip.errands} />
            </PhoneFold>
          </>
        )}
      </div>
    ))}
    <SettledLines lines={settled} back="/" />
    <p class="more">
      <a href="/buying">The whole shopping list</a> · <a href="/glut">Too much of a crop at once?</a>
    </p>
  </Part>
);

/** Its fields stand open, or something typed in them was refused. */
const isAsked = ({ otherAt, form }: LineTickProps): boolean => otherAt === null || hasProblems(form);

const ErrandList = ({ errands }: Pick<Trip, 'errands'>) => (
  <ul class="errands">
    {errands.map((errand) => (
      <li key={errand.key}>
        <span class="errand-quantity stamp">{errand.amount}</span>
        <span class="errand-what">
          {errand.what} <span class="errand-where">{errandWhere(errand)}</span>
        </span>
        <span class="errand-cost">{errand.cost ?? ''}</span>
        <div class="errand-tick not-on-paper">
          <LineTick {...errand.tick} />
        </div>
      </li>
    ))}
  </ul>
);

/** So many lines are in sight on a phone; the rest is one row there. */
const inSight = 3;
const noticesInSight = 2;

const EatFirst = ({ rows }: { rows: readonly EatFirstRow[] }) => (
  <Part title="Eat first" id="eat-first">
    {rows.length === 0 ? (
      <EmptyState text="Nothing on the shelf is near its date." />
    ) : (
      <>
        <EatFirstList rows={rows.slice(0, inSight)} from={1} />
        {rows.length <= inSight ? null : (
          <PhoneFold words={`${rows.length - inSight} more to eat soon`}>
            <EatFirstList rows={rows.slice(inSight)} from={inSight + 1} />
          </PhoneFold>
        )}
      </>
    )}
  </Part>
);

const EatFirstList = ({ rows, from }: { rows: readonly EatFirstRow[]; from: number }) => (
  <ol class="eat-first" start={from}>
    {rows.map((row) => (
      <li key={row.key}>
        <ItemName item={row.item} />
        <span class="quiet">{row.which}</span>
        <span class="eat-until">{row.until}</span>
      </li>
    ))}
  </ol>
);

/** What this page already shows elsewhere is not said again here, so none may be left though some wait. */
const Notices = ({ notices, more, open }: { notices: readonly NoticeLine[]; more: number; open: number }) => (
  <Part title="To know" id="to-know">
    {notices.length === 0 ? (
      <EmptyState text={open > 0 ? 'Nothing else needs attention.' : 'Nothing needs attention.'} />
    ) : (
      <>
        <NoticeList notices={notices.slice(0, noticesInSight)} />
        {notices.length <= noticesInSight ? null : (
          <PhoneFold words={`${notices.length - noticesInSight} more to know`}>
            <NoticeList notices={notices.slice(noticesInSight)} />
          </PhoneFold>
        )}
      </>
    )}
    <p class="more">
      <a href="/notices">{more > 0 ? `${more} more, and all notices` : 'All notices'}</a>
    </p>
  </Part>
);

/** `Crushed tomatoes, Peach halves and 9 more to put up`: what comes, told by its first two. */
const aheadWords = (weeks: readonly WeekAhead[]): string => {
  const names = [...new Set(weeks.flatMap(({ makes }) => makes.map(({ item }) => item.name)))];
  const first = names.slice(0, 2);
  if (first.length === 0) return `Nothing to put up; ${counted(weeks.length, 'week')} of buying`;
  return names.length > 2
    ? `${first.join(', ')} and ${names.length - 2} more to put up`
    : `${first.join(' and ')} to put up`;
};

const Ahead = ({ weeks }: { weeks: readonly WeekAhead[] }) => (
  <Part title="The next four weeks" id="next-weeks">
    {weeks.length === 0 ? (
      <EmptyState text="There is no plan to look ahead in yet." />
    ) : (
      <PhoneFold words={aheadWords(weeks)}>
        <DataTable
          caption="What comes in the next four weeks"
          columns={[
            { title: 'Week', heading: true },
            { title: 'Put up' },
            { title: 'Buy' },
            { title: 'Kitchen', kind: 'number' },
            { title: 'Spend', kind: 'number' },
          ]}
          rows={weeks.map((week) => ({
            key: week.key,
            cells: [
              week.week,
              week.makes.length === 0 ? (
                <span class="quiet">nothing</span>
              ) : (
                <ul class="ahead-makes">
                  {week.makes.map((make) => (
                    <li key={make.key}>
                      <ItemName item={make.item} /> <span class="quiet">{make.comes}</span>
                    </li>
                  ))}
                </ul>
              ),
              week.buy,
              week.time,
              week.spend,
            ],
          }))}
        />
      </PhoneFold>
    )}
  </Part>
);
