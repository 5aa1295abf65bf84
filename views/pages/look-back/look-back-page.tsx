import { counted, wordFor } from '../../../shared/counting.ts';
import { ForecastTenths, type ForecastTenthsProps } from '../../charts/forecast-tenths.tsx';
import { type MonthOfYear, MonthsOfYear } from '../../charts/months-of-year.tsx';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { WorthBesideStore, type WorthProps } from './worth.tsx';

export interface LookBackPageProps {
  readonly frame: Frame;
  /** `Aug 13, 2025 to Aug 12, 2026` */
  readonly period: string;
  readonly summary: string;
  /** Of which more or less is wanted next year. */
  readonly proposals: readonly YearLine[];
  /** Of which the same is wanted, or nothing can be said. */
  readonly made: readonly YearLine[];
  readonly bought: readonly YearLine[];
  /** Sent by one touch for every item with a figure that is not accepted yet; null when there is none. */
  readonly acceptAll: { readonly words: string; readonly keys: FormKeys } | null;
  readonly ranOut: readonly RanOutLine[];
  readonly thrownAway: readonly { readonly key: string; readonly item: ItemLabel; readonly why: string }[];
  /** `$468 and 74 hours at the stove`; empty where nothing was put up or paid for. */
  readonly costsInAll: string;
  readonly costs: readonly CostLine[];
  /** Money and hours by month, and what is known of a store's prices; null where nothing was put up. */
  readonly months: { readonly months: readonly MonthOfYear[]; readonly storeWords: string } | null;
  readonly worth: WorthProps;
  /** Who took from the shelf, and how often; null where no take says. */
  readonly whoTook: {
    readonly inAll: string;
    readonly people: readonly { readonly name: string; readonly times: string; readonly mostOften: string }[];
    readonly unsaid: string;
  } | null;
  readonly forecast: {
    readonly words: readonly string[];
    readonly picture: ForecastTenthsProps | null;
  };
  readonly plan: string;
  readonly plants: readonly PlantLine[];
  readonly toBuy: readonly { readonly key: string; readonly what: string; readonly quantity: string }[];
  /** Upkeep of the year ahead, what is due first on top. */
  readonly upkeep: readonly { readonly key: string; readonly what: string; readonly when: string }[];
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

/** When of the year none stood there. */
export interface RanOutLine {
  readonly key: string;
  readonly item: ItemLabel;
  /** `Mar 11 to Jul 28` */
  readonly when: string;
  /** `140 days` */
  readonly days: string;
  /** Stretches as shares of the year, from its first day on. */
  readonly spans: readonly { readonly from: number; readonly until: number }[];
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
    moreCss={props.frame.assets.comparedCss}
  >
    <h1 class="page-title">Look back</h1>
    <p class="page-kicker">{props.period}</p>
    <p class="more">
      <a href="/look-back/years">Through the years</a>
    </p>
    <p class="page-line">{props.summary}</p>
    <Part
      title="More or less next year"
      id="advice"
      line="What a year needs, beside what came this year. Tap one to make it next year’s target; tap a name to see why."
    >
      {props.proposals.length === 0 ? (
        <EmptyState text="Nothing needs to be more or less next year." />
      ) : (
        <ul class="proposals">
          {props.proposals.map((line) => (
            <Proposal key={line.itemId} {...line} />
          ))}
        </ul>
      )}
      {props.acceptAll === null ? null : (
        <PostForm action="/look-back/targets" keys={props.acceptAll.keys} class="accept-all">
          <Button>{props.acceptAll.words}</Button>
        </PostForm>
      )}
      {props.made.length + props.bought.length === 0 ? null : (
        <details>
          <summary>{unchangedWords(props.made.length + props.bought.length)}</summary>
          <YearTable caption="Put up here" came="put up" lines={props.made} />
          <YearTable caption="Bought" came="bought" lines={props.bought} />
        </details>
      )}
    </Part>
    <RanOut lines={props.ranOut} />
    <div class="look-back-folds">
      <details>
        <summary>{`Thrown away: ${props.thrownAway.length === 0 ? 'nothing' : counted(props.thrownAway.length, 'food')}`}</summary>
        <ItemList lines={props.thrownAway.map(({ key, item, why }) => ({ key, item, words: why }))} />
      </details>
      <Costs costs={props.costs} inAll={props.costsInAll} months={props.months} />
      <WorthBesideStore {...props.worth} />
      {props.whoTook === null ? null : <WhoTook {...props.whoTook} />}
      <details>
        <summary>How good the forecast was</summary>
        {props.forecast.words.map((words) => (
          <p key={words}>{words}</p>
        ))}
        {props.forecast.picture === null ? null : <ForecastTenths {...props.forecast.picture} />}
      </details>
      <details>
        <summary>How good the plan was</summary>
        <p>{props.plan}</p>
      </details>
      <NextYear plants={props.plants} toBuy={props.toBuy} upkeep={props.upkeep} />
    </div>
  </Page>
);

const WhoTook = ({ inAll, people, unsaid }: NonNullable<LookBackPageProps['whoTook']>) => (
  <details>
    <summary>{`Who took it: ${inAll}`}</summary>
    <DataTable
      caption="Takes to eat, by who took it"
      columns={[{ title: 'who', heading: true }, { title: 'times', kind: 'number' }, { title: 'most often' }]}
      rows={people.map(({ name, times, mostOften }) => ({ key: name, cells: [name, times, mostOften] }))}
    />
    {unsaid === '' ? null : <p class="hint">{unsaid}</p>}
  </details>
);

const unchangedWords = (items: number): string =>
  `${items} ${wordFor(items, 'stays', 'stay')} the same or ${wordFor(items, 'says', 'say')} too little`;

/** An item of which more or less is wanted; opened, the figures behind it. */
const Proposal = (line: YearLine) => (
  <li>
    <details>
      <summary>
        <ItemName item={{ name: line.item.name, family: line.item.family }} />
        <strong>{line.advice}</strong>
      </summary>
      <p class="small">
        {line.because}{' '}
        {line.item.href === undefined ? null : (
          <a href={line.item.href}>
            Its jars<span class="heard-only">{`: ${line.item.name}`}</span>
          </a>
        )}
      </p>
    </details>
    <Accept {...line.accept} />
  </li>
);

const mostStrips = 12;

/** The twelve months as a board, sawn out where none stood; the longest first. */
const RanOut = ({ lines }: { lines: readonly RanOutLine[] }) => {
  const more = lines.slice(mostStrips);
  return (
    <Part
      title="What ran out"
      id="ran-out"
      line="Twelve months from left to right; a solid stretch is days on which there was none."
    >
      {lines.length === 0 ? (
        <EmptyState text="Nothing ran out." />
      ) : (
        <Strips lines={lines.slice(0, mostStrips)} />
      )}
      {more.length === 0 ? null : (
        <details>
          <summary>{`${more.length} more for fewer days`}</summary>
          <Strips lines={more} />
        </details>
      )}
    </Part>
  );
};

const Strips = ({ lines }: { lines: readonly RanOutLine[] }) => (
  <ul class="ran-out">
    {lines.map(({ key, item, when, days, spans }) => (
      <li key={key}>
        <ItemName item={item} />
        <span>{days}</span>
        <svg role="img" aria-label={when}>
          <title>{when}</title>
          {spans.map(({ from, until }) => (
            <rect key={from} x={percent(from)} width={percent(until - from)} height="100%" />
          ))}
        </svg>
      </li>
    ))}
  </ul>
);

const percent = (share: number): string => `${Math.round(share * 1000) / 10}%`;

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

const Costs = ({ costs, inAll, months }: Pick<LookBackPageProps, 'costs' | 'months'> & { inAll: string }) => (
  <details>
    <summary>{`Money and hours${inAll === '' ? '' : `: ${inAll}`}`}</summary>
    <p class="quiet">
      What you paid, and what your batches cost at today’s prices: produce, supplies and lids; jars are used
      again. Hours are hands-on work, as written down or as the recipe says.
    </p>
    {months === null ? null : (
      <>
        <MonthsOfYear months={months.months} />
        <p class="quiet">{months.storeWords}</p>
      </>
    )}
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
  </details>
);

/** January's list: what to look after, buy and grow before the season. */
const NextYear = ({ plants, toBuy, upkeep }: Pick<LookBackPageProps, 'plants' | 'toBuy' | 'upkeep'>) => (
  <details id="next-year">
    <summary>For next year</summary>
    <h3>Upkeep</h3>
    {upkeep.length === 0 ? (
      <EmptyState text="Nothing is due for a canner or another device." />
    ) : (
      <ul class="plain-list">
        {upkeep.map(({ key, what, when }) => (
          <li key={key}>
            {what} <strong>{when}</strong>
          </li>
        ))}
      </ul>
    )}
    <p class="more">
      <a href="/upkeep">Upkeep</a>
    </p>
    <h3>Lids and jars to buy</h3>
    <p class="quiet">What the plan buys over its 52 weeks, beyond what you own.</p>
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
    <h3>Seeds and plants</h3>
    <p class="quiet">
      From your targets, at what one plant gives: as you said, and as{' '}
      <a href="/look-back/years#garden">your own years</a> gave.
    </p>
    {plants.length === 0 ? (
      <EmptyState
        text="No garden source says what one plant gives."
        action={{ words: 'Harvest', href: '/harvest' }}
      />
    ) : (
      <DataTable
        caption="Plants to grow for what the year needs"
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
  </details>
);
