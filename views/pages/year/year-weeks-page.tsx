import { WeeksAgainstLimit, type WeeksAgainstLimitProps } from '../../charts/weeks-against-limit.tsx';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { WeekCard, type WeekCardProps, WeeksBeside } from './week-card.tsx';

export interface YearWeeksPageProps {
  readonly frame: Frame;
  /** Null where no week was asked for. */
  readonly card: WeekCardProps | null;
  readonly hours: WeeksAgainstLimitProps | null;
  readonly money: WeeksAgainstLimitProps | null;
  /** One picture a jar size; empty without a plan. */
  readonly jars: readonly WeeksAgainstLimitProps[];
}

/** The year's plan by the week: kitchen hours, money and jars under what there is of each. */
export const YearWeeksPage = ({ frame, card, hours, money, jars }: YearWeeksPageProps) => (
  <Page
    frame={frame}
    title={card === null ? 'Hours, money and jars by week' : card.title}
    section="year"
    about="Kitchen hours, money and jars of the year’s plan, week by week."
    wide
    moreCss={frame.assets.yearCss}
  >
    <p class="page-back">
      <a href="/year">The year</a>
    </p>
    <h1 class="page-title">Hours, money and jars by week</h1>
    {card === null ? null : (
      <>
        <WeekCard card={card} />
        <WeeksBeside {...card} />
      </>
    )}
    {hours === null && money === null && jars.length === 0 ? (
      <EmptyState text="There is no plan yet." action={{ words: 'The year', href: '/year#plan-status' }} />
    ) : null}
    <div class="side-by-side">
      {hours === null ? null : (
        <Part title="Kitchen hours by week" id="hours">
          <WeeksAgainstLimit {...hours} />
        </Part>
      )}
      {money === null ? null : (
        <Part title="Money by week" id="money">
          <WeeksAgainstLimit {...money} />
        </Part>
      )}
    </div>
    {jars.length === 0 ? null : (
      <Part
        title="Jars by size"
        id="jars"
        line="Jars in use at the end of each week, and how many you own. The difference is your empty ones."
      >
        <div class="jar-pictures">
          {jars.map((picture) => (
            <WeeksAgainstLimit key={picture.id} {...picture} />
          ))}
        </div>
      </Part>
    )}
  </Page>
);
