import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { sentenceCase } from '../../words/sentences.ts';
import { ItemHead, type ItemHeadProps } from '../items/item-head.tsx';
import { BatchWhy, type BatchWhyProps } from './batch-why.tsx';

export interface ItemWeek {
  readonly key: string;
  readonly week: string;
  /** Units at the end of the week: likely, and the range eight years in ten stay within. */
  readonly likely: string;
  readonly range: string;
  readonly comes: string;
  readonly remark: string;
}

/** One line of the walk from what a year needs to what is still missing. */
export interface WalkedLine {
  readonly what: string;
  readonly why: string;
  readonly units: string;
  readonly isSum: boolean;
}

export interface YearItemPageProps {
  readonly frame: Frame;
  readonly head: ItemHeadProps;
  /** `12 left. Lasts to early March. Next peaches in August. Make 20.` */
  readonly sentence: string;
  /** `Next peaches in August. Make 20.` */
  readonly ahead: string;
  /** From what a year needs to what is still missing; null for what is no longer kept. */
  readonly target: readonly WalkedLine[] | null;
  /** How much is used and why we think so. */
  readonly use: string | null;
  readonly plans: readonly { readonly key: string; readonly week: string; readonly words: string }[];
  readonly weeks: readonly ItemWeek[];
  readonly whys: readonly BatchWhyProps[];
}

/** One board of the year, large, with every figure behind it. */
export const YearItemPage = (props: YearItemPageProps) => (
  <Page
    frame={props.frame}
    title={`${props.head.item.name} in the year`}
    section="year"
    about={props.sentence}
    wide
    moreCss={props.frame.assets.yearCss}
  >
    <ItemHead head={props.head} current="year" />
    <p class="page-line">{props.ahead}</p>
    <div class="side-by-side">
      <Part title="What a year needs" id="target" line={props.use ?? undefined}>
        {props.target === null ? (
          <EmptyState text="No target is set." />
        ) : (
          <dl class="facts sum">
            {props.target.map(({ what, why, units, isSum }) => (
              <div key={what} class={isSum ? 'sum-total' : undefined}>
                <dt>
                  {sentenceCase(what)}
                  {why === '' ? null : <span class="small quiet"> {why}</span>}
                </dt>
                <dd>{units}</dd>
              </div>
            ))}
          </dl>
        )}
      </Part>
      <Part title="What is planned" id="planned">
        {props.plans.length === 0 ? (
          <EmptyState text="Nothing of it is planned for the next twelve months." />
        ) : (
          <ul class="plain-list">
            {props.plans.map((plan) => (
              <li key={plan.key}>
                <strong>{plan.week}</strong> {plan.words}
              </li>
            ))}
          </ul>
        )}
      </Part>
    </div>
    {props.whys.length === 0 ? null : (
      <Part title="Why then" id="why" line="What made the plan put each batch in its week.">
        <ul class="plain-list">
          {props.whys.map((why) => (
            <BatchWhy key={why.id} {...why} />
          ))}
        </ul>
      </Part>
    )}
    <details class="part">
      <summary>Week by week in figures</summary>
      <DataTable
        caption={`${props.head.item.name}, week by week`}
        columns={[
          { title: 'Week', heading: true },
          { title: 'Likely left', kind: 'number' },
          { title: '8 years in 10', kind: 'number' },
          { title: 'Comes', kind: 'number' },
          { title: 'Remark' },
        ]}
        rows={props.weeks.map((week) => ({
          key: week.key,
          cells: [week.week, week.likely, week.range, week.comes, week.remark],
        }))}
      />
    </details>
  </Page>
);
