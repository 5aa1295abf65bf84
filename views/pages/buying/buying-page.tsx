import { counted } from '../../../shared/counting.ts';
import { WeeksAgainstLimit, type WeeksAgainstLimitProps } from '../../charts/weeks-against-limit.tsx';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { hasProblems } from '../../parts/fields.tsx';
import { LineTick, type LineTickProps, type SettledLine, SettledLines } from '../../parts/line-tick.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { PhoneFold } from '../../parts/phone-fold.tsx';
import { PlanStatus, type PlanStatusProps } from '../../parts/plan-status.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface BuyingLine {
  readonly key: string;
  readonly what: string;
  /** `Aug 20 or Aug 21`: when it is fetched, for what would not keep; null for what can wait. */
  readonly days?: string | null;
  readonly quantity: string;
  /** `2 packs of 12`; empty for what is bought loose. */
  readonly packs: string;
  readonly cost: string;
  readonly tick: LineTickProps;
}

export interface BuyingKind {
  readonly key: string;
  /** `From the garden`, `At the market`, `At the store` */
  readonly title: string;
  readonly lines: readonly BuyingLine[];
}

export interface BuyingWeek {
  readonly key: string;
  readonly title: string;
  readonly total: string;
  readonly fundAfter: string | null;
  readonly kinds: readonly BuyingKind[];
}

export interface BuyingPageProps {
  readonly frame: Frame;
  readonly summary: string;
  readonly weeks: readonly BuyingWeek[];
  /** What was bought or skipped lately. */
  readonly settled: readonly SettledLine[];
  readonly money: WeeksAgainstLimitProps | null;
  readonly plan: PlanStatusProps;
}

/** What to buy in which week, what it costs, and what the season fund says to it. */
export const BuyingPage = ({ frame, summary, weeks, settled, money, plan }: BuyingPageProps) => (
  <Page
    frame={frame}
    title={pageNames.buying}
    section="buying"
    about="What to buy in the next weeks for the pantry and for canning, and what it costs."
  >
    <h1 class="page-title">{pageNames.buying}</h1>
    <p class="page-line" id="buying-line">
      {summary}
    </p>
    <PlanStatus {...plan} />
    <div id="buying-lists">
      {weeks.length === 0 ? <EmptyState text="There is no plan to buy for yet." /> : null}
      {weeks.map((week, at) => (
        <BuyingList key={week.key} week={week} isNow={at === 0} />
      ))}
      <SettledLines lines={settled} back="/buying" />
    </div>
    {money === null ? null : (
      <Part title="Season fund by week" id="fund" class="not-on-paper">
        <WeeksAgainstLimit {...money} />
      </Part>
    )}
  </Page>
);

const linesOf = ({ kinds }: BuyingWeek): readonly BuyingLine[] => kinds.flatMap(({ lines }) => lines);

/** What is bought now is in sight; on a phone each later week is one row until it is wanted. */
const BuyingList = ({ week, isNow }: { week: BuyingWeek; isNow: boolean }) => (
  <Part
    title={week.title}
    id={`buy-${week.key}`}
    line={
      <>
        <span class="stamp">{week.total}</span>
        {week.fundAfter === null ? null : <span>{`, ${week.fundAfter}`}</span>}
      </>
    }
  >
    {week.kinds.length === 0 ? (
      <EmptyState text="Nothing to buy this week." />
    ) : isNow ? (
      <BuyingTable week={week} />
    ) : (
      <PhoneFold
        words={counted(linesOf(week).length, 'thing to fetch', 'things to fetch')}
        open={linesOf(week).some(({ tick }) => hasProblems(tick.form))}
      >
        <BuyingTable week={week} />
      </PhoneFold>
    )}
  </Part>
);

const BuyingTable = ({ week }: { week: BuyingWeek }) => (
  <div class="table-frame">
    <table class="data-table buying-table">
      <caption class="heard-only">{`What to buy in the ${week.title}`}</caption>
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col" class="number">
            How much
          </th>
          <th scope="col" class="number">
            Packs
          </th>
          <th scope="col" class="number">
            Cost
          </th>
          <th scope="col" class="not-on-paper">
            Done
          </th>
        </tr>
      </thead>
      {week.kinds.map((kind) => (
        <KindRows key={kind.key} kind={kind} />
      ))}
    </table>
  </div>
);

const KindRows = ({ kind }: { kind: BuyingKind }) => (
  <tbody>
    <tr>
      <th scope="rowgroup" colSpan={5} class="buying-kind">
        {kind.title}
      </th>
    </tr>
    {kind.lines.map((line) => (
      <tr key={line.key}>
        <th scope="row">
          {line.what}
          {line.days == null ? null : <span class="quiet buying-days">{line.days}</span>}
        </th>
        <td class="number">{line.quantity}</td>
        <td class="number quiet">{line.packs}</td>
        <td class="number">{line.cost}</td>
        <td class="buying-tick not-on-paper">
          <LineTick {...line.tick} />
        </td>
      </tr>
    ))}
  </tbody>
);
