import { ForecastTenths, type ForecastTenthsProps } from '../../charts/forecast-tenths.tsx';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

export interface LookBackPageProps {
  readonly frame: Frame;
  /** `Aug 13, 2025 to Aug 12, 2026` */
  readonly period: string;
  readonly summary: string;
  readonly made: readonly YearLine[];
  readonly bought: readonly YearLine[];
  /** Sent by one touch for every item with a figure that is not accepted yet; null when there is none. */
  readonly acceptAll: { readonly words: string; readonly keys: FormKeys } | null;
  readonly ranOut: readonly { readonly key: string; readonly item: ItemLabel; readonly when: string }[];
  readonly thrownAway: readonly { readonly key: string; readonly item: ItemLabel; readonly why: string }[];
  readonly costs: readonly CostLine[];
  readonly forecast: {
    readonly words: readonly string[];
    readonly picture: ForecastTenthsProps | null;
  };
  readonly plan: string;
  readonly plants: readonly PlantLine[];
  readonly toBuy: readonly { readonly key: string; readonly what: string; readonly quantity: string }[];
}

/** One item's year in figures, and what it says about the next. */
export interface YearLine {
  readonly itemId: string;
  readonly item: ItemLabel;
  readonly came: string;
  readonly eaten: string;
  readonly given: string;
  readonly thrown: string;
  readonly left: string;
  /** `make more` */
  readonly advice: string;
  readonly because: string;
  readonly accept: AcceptProps;
}

export interface AcceptProps {
  readonly itemId: string;
  readonly state:
    | { readonly is: 'open'; readonly units: string; readonly words: string; readonly keys: FormKeys }
    | { readonly is: 'accepted'; readonly words: string }
    | { readonly is: 'nothing' };
}

export interface CostLine {
  readonly key: string;
  readonly item: ItemLabel;
  readonly money: string;
  readonly moneyEach: string;
  readonly time: string;
  readonly timeEach: string;
}

export interface PlantLine {
  readonly key: string;
  readonly source: string;
  readonly wanted: string;
  readonly now: string;
  readonly why: string;
}

/** The year's account: what became of everything, and more, less or the same for the next. */
export const LookBackPage = (props: LookBackPageProps) => (
  <Page
    frame={props.frame}
    title="Look back"
    section="look-back"
    about="What was put up, eaten and thrown away, and what to make more or less of."
    wide
  >
    <h1 class="page-title">Look back</h1>
    <p class="page-kicker">{props.period}</p>
    <p class="page-line">{props.summary}</p>
    <Part
      title="More, less or the same"
      id="advice"
      line="What came this year, held against what a year needs by everything you have recorded. One touch keeps that number as next year's target."
    >
      {props.acceptAll === null ? null : (
        <PostForm action="/look-back/targets" keys={props.acceptAll.keys} class="accept-all">
          <Button>{props.acceptAll.words}</Button>
        </PostForm>
      )}
      <YearTable caption="Put up here" came="put up" lines={props.made} />
      <YearTable caption="Bought" came="bought" lines={props.bought} />
    </Part>
    <div class="two-columns">
      <Part title="What ran out" line="Whole days on which none stood there.">
        {props.ranOut.length === 0 ? (
          <EmptyState text="Nothing ran out." />
        ) : (
          <ItemList lines={props.ranOut.map(({ key, item, when }) => ({ key, item, words: when }))} />
        )}
      </Part>
      <Part title="Thrown away, and why">
        {props.thrownAway.length === 0 ? (
          <EmptyState text="Nothing was thrown away." />
        ) : (
          <ItemList lines={props.thrownAway.map(({ key, item, why }) => ({ key, item, words: why }))} />
        )}
      </Part>
    </div>
    <Costs costs={props.costs} />
    <div class="two-columns">
      <Part title="How good the forecast was">
        {props.forecast.words.map((words) => (
          <p key={words}>{words}</p>
        ))}
        {props.forecast.picture === null ? null : <ForecastTenths {...props.forecast.picture} />}
      </Part>
      <Part title="How good the plan was">
        <p>{props.plan}</p>
      </Part>
    </div>
    <NextYear plants={props.plants} toBuy={props.toBuy} />
  </Page>
);

const YearTable = ({
  caption,
  came,
  lines,
}: {
  caption: string;
  came: string;
  lines: readonly YearLine[];
}) =>
  lines.length === 0 ? null : (
    <DataTable
      caption={caption}
      captionShown
      columns={[
        { title: 'item', heading: true },
        { title: came, kind: 'number' },
        { title: 'eaten', kind: 'number' },
        { title: 'given', kind: 'number' },
        { title: 'thrown', kind: 'number' },
        { title: 'left', kind: 'number' },
        { title: 'next year' },
        { title: 'target' },
      ]}
      rows={lines.map((line) => ({
        key: line.itemId,
        cells: [
          <ItemName key="name" item={line.item} />,
          line.came,
          line.eaten,
          line.given,
          line.thrown,
          line.left,
          <span key="advice">
            <strong>{line.advice}</strong> <span class="small quiet">{line.because}</span>
          </span>,
          <Accept key="accept" {...line.accept} />,
        ],
      }))}
    />
  );

/** The one touch, swapped for its answer. */
export const Accept = ({ itemId, state }: AcceptProps) => {
  switch (state.is) {
    case 'nothing':
      return null;
    case 'accepted':
      return (
        <span class="accept" id={`accept-${itemId}`}>
          {state.words} <a href={`/targets/${itemId}`}>Change</a>
        </span>
      );
    case 'open':
      return (
        <span class="accept" id={`accept-${itemId}`}>
          <PostForm
            action={`/look-back/targets/${itemId}`}
            keys={state.keys}
            replaces={`#accept-${itemId}`}
            class="accept-form"
          >
            <input type="hidden" name="units" value={state.units} />
            <Button label={`${state.words} as the target of ${itemId.replaceAll('-', ' ')}`}>
              {state.words}
            </Button>
          </PostForm>
        </span>
      );
  }
};

const ItemList = ({
  lines,
}: {
  lines: readonly { readonly key: string; readonly item: ItemLabel; readonly words: string }[];
}) => (
  <ul class="plain-list">
    {lines.map((line) => (
      <li key={line.key}>
        <ItemName item={line.item} /> <span class="quiet">{line.words}</span>
      </li>
    ))}
  </ul>
);

const Costs = ({ costs }: Pick<LookBackPageProps, 'costs'>) => (
  <Part
    title="Money and hours"
    line="What was paid, and what batches took at the prices of now: produce, supplies and lids; jars last. Hours are hands-on work, as written down or as the recipe says."
  >
    {costs.length === 0 ? (
      <EmptyState text="Nothing was put up or paid for." />
    ) : (
      <div class="costs-table">
        <DataTable
          caption="Money and hands-on hours by item and by jar"
          columns={[
            { title: 'item', heading: true },
            { title: 'money', kind: 'number' },
            { title: 'each', kind: 'number' },
            { title: 'work', kind: 'number' },
            { title: 'work each', kind: 'number' },
          ]}
          rows={costs.map((cost) => ({
            key: cost.key,
            cells: [
              <ItemName key="name" item={cost.item} />,
              cost.money,
              cost.moneyEach,
              cost.time,
              cost.timeEach,
            ],
          }))}
        />
      </div>
    )}
  </Part>
);

const NextYear = ({ plants, toBuy }: Pick<LookBackPageProps, 'plants' | 'toBuy'>) => (
  <div class="two-columns">
    <Part title="Plants to grow" line="From the targets as they stand, at what a plant gives.">
      {plants.length === 0 ? (
        <EmptyState
          text="No garden source says how many plants it has and what one gives."
          action={{ words: 'Harvest', href: '/harvest' }}
        />
      ) : (
        <DataTable
          caption="Plants to grow"
          columns={[
            { title: 'where', heading: true },
            { title: 'plants wanted', kind: 'number' },
            { title: 'plants now', kind: 'number' },
            { title: 'why' },
          ]}
          rows={plants.map((plant) => ({
            key: plant.key,
            cells: [
              plant.source,
              <strong key="wanted">{plant.wanted}</strong>,
              plant.now,
              <span key="why" class="small quiet">
                {plant.why}
              </span>,
            ],
          }))}
        />
      )}
    </Part>
    <Part title="Lids and jars to buy" line="What the plan buys in its 52 weeks.">
      {toBuy.length === 0 ? (
        <EmptyState text="The plan needs none beyond what is on hand." />
      ) : (
        <ul class="plain-list">
          {toBuy.map(({ key, what, quantity }) => (
            <li key={key}>
              {what} <strong>{quantity}</strong>
            </li>
          ))}
        </ul>
      )}
    </Part>
  </div>
);
