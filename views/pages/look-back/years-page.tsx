import type { gardenYieldForm } from '../../../shared/schemas/harvest.ts';
import { type LevelCurve, LevelCurves, LevelKey } from '../../charts/level-curves.tsx';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { drawnOnce } from '../../parts/drawn-once.tsx';
import { InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

export interface FoodYearsProps {
  readonly key: string;
  readonly item: ItemLabel & { readonly href: string };
  /** `lasted in 2 of 3 years`; empty while no whole year is known. */
  readonly lasted: string;
  /** `The most at once was 24 pints` */
  readonly most: string;
  readonly picture: { readonly curves: readonly LevelCurve[]; readonly words: string };
  readonly rows: readonly {
    readonly year: string;
    readonly came: string;
    readonly eaten: string;
    readonly given: string;
    readonly thrown: string;
    /** `none on 40 days`, `lasted` */
    readonly lasting: string;
  }[];
}

export interface SeasonYearsProps {
  readonly key: string;
  readonly source: string;
  /** `8 days late on average` */
  readonly usually: string;
  readonly years: readonly {
    readonly year: number;
    /** Place between six weeks early (0) and six weeks late (1). */
    readonly at: number;
    /** `2026: Jul 3, 8 days late` */
    readonly words: string;
  }[];
}

export interface GardenYearsProps {
  readonly key: string;
  readonly source: string;
  /** `6.1 lb a plant to count on; you said 8 lb` */
  readonly perPlant: string;
  readonly years: readonly { readonly year: number; readonly words: string }[];
  /** `The batches of 2026 took 83 lb of tomatoes.` Empty where they took none. */
  readonly took: string;
}

export interface YearsPageProps {
  readonly frame: Frame;
  readonly years: readonly number[];
  readonly putUp: readonly FoodYearsProps[];
  readonly bought: readonly FoodYearsProps[];
  readonly seasons: readonly SeasonYearsProps[];
  readonly garden: readonly GardenYearsProps[];
  /** Null for who may not change the plan, and where there is no garden. */
  readonly writing: {
    readonly form: StateOf<typeof gardenYieldForm, never, 'amountUnit'>;
    readonly sources: readonly Choice[];
    readonly units: readonly Choice[];
  } | null;
}

/** What the shelf held year by year, when the seasons began and what the garden gave. */
export const YearsPage = (props: YearsPageProps) => (
  <Page
    frame={props.frame}
    title="Through the years"
    section="look-back"
    about="What was on the shelf year by year, when each season began, and what the garden gave."
    wide
    moreCss={props.frame.assets.comparedCss}
  >
    <h1 class="page-title">Through the years</h1>
    <p class="page-line">
      <a href="/look-back">The last twelve months</a>
    </p>
    <Part
      title="On the shelf"
      id="foods"
      line="January to December from left to right, a line for each year. A year lasted when on no day you know of there was none."
    >
      {props.putUp.length + props.bought.length === 0 ? (
        <EmptyState
          text="Nothing was put up, bought or eaten yet."
          action={{ words: 'Shelf', href: '/shelf' }}
        />
      ) : (
        <LevelKey years={props.years} />
      )}
      <Foods foods={props.putUp} />
      {props.bought.length === 0 ? null : (
        <details>
          <summary>{`Bought: ${props.bought.length}`}</summary>
          <Foods foods={props.bought} />
        </details>
      )}
    </Part>
    <Part
      title="Seasons early and late"
      id="seasons"
      line="First pickings beside the day you planned with; the line in the middle is that day, the ends are six weeks."
    >
      {props.seasons.length === 0 ? (
        <EmptyState
          text="No first picking is written down yet."
          action={{ words: 'Harvest', href: '/harvest' }}
        />
      ) : (
        <ul class="season-years">
          {props.seasons.map(({ key, source, usually, years }) => (
            <li key={key}>
              <strong>{source}</strong> <span>{usually}</span>
              <svg class="season-strip" aria-hidden="true" viewBox="0 0 240 16" preserveAspectRatio="none">
                <line class="level-quarter" x1="120" x2="120" y1="0" y2="16" />
                {years.map(({ year, at }, place) => (
                  <rect
                    key={year}
                    class={place === years.length - 1 ? 'season-mark last' : 'season-mark'}
                    x={Math.round(at * 236)}
                    y={place === years.length - 1 ? 1 : 4}
                    width="4"
                    height={place === years.length - 1 ? 14 : 8}
                  />
                ))}
              </svg>
              <ul class="plain-list small">
                {years.map(({ year, words }) => (
                  <li key={year}>{words}</li>
                ))}
              </ul>
            </li>
          ))}
        </ul>
      )}
    </Part>
    <Part
      title="What the garden gave"
      id="garden"
      line="Weighed at home, whether put up or eaten fresh. It teaches how many plants next year needs."
    >
      {props.garden.length === 0 ? (
        <EmptyState
          text="No source is a garden of your own."
          action={{ words: 'Add one', href: '/harvest/new' }}
        />
      ) : (
        <ul class="garden-years">
          {props.garden.map(({ key, source, perPlant, years, took }) => (
            <li key={key}>
              <strong>{source}</strong> <span>{perPlant}</span>
              <ul class="plain-list small">
                {years.map(({ year, words }) => (
                  <li key={year}>{words}</li>
                ))}
                {took === '' ? null : <li class="quiet">{took}</li>}
              </ul>
            </li>
          ))}
        </ul>
      )}
      {props.writing === null ? null : <Writing {...props.writing} />}
      <p class="more">
        <a href="/look-back#next-year">What to grow next year</a>
      </p>
    </Part>
  </Page>
);

/** A picture a food; opened, its figures. */
const Foods = ({ foods }: { foods: readonly FoodYearsProps[] }) => (
  <ul class="food-years">
    {foods.map((food) => (
      <Food key={food.key} food={food} />
    ))}
  </ul>
);

const Food = drawnOnce(
  'food',
  ({ food: { item, lasted, most, picture, rows } }: { readonly food: FoodYearsProps }) => (
    <li>
      <details>
        <summary>
          <ItemName item={{ name: item.name, family: item.family }} />
          <span class="small quiet">{lasted}</span>
          <LevelCurves {...picture} />
        </summary>
        <p class="small">
          {most}.{' '}
          <a href={item.href}>
            Its jars<span class="heard-only">{`: ${item.name}`}</span>
          </a>
        </p>
        <DataTable
          caption={`${item.name}, year by year`}
          columns={[
            { title: 'year', heading: true },
            { title: 'came', kind: 'number' },
            { title: 'eaten', kind: 'number' },
            { title: 'given', kind: 'number' },
            { title: 'thrown', kind: 'number' },
            { title: 'lasted' },
          ]}
          stacks={false}
          rows={rows.map((row) => ({
            key: row.year,
            cells: [row.year, row.came, row.eaten, row.given, row.thrown, row.lasting],
          }))}
        />
      </details>
    </li>
  ),
);

const Writing = ({ form, sources, units }: NonNullable<YearsPageProps['writing']>) => (
  <PostForm action="/look-back/years/garden" form={form} label="What the garden gave">
    <div class="form-row">
      <SelectField form={form} name="sourceId" label="Where" choices={sources} />
      <InputField form={form} name="year" label="Year" inputMode="numeric" width="short" />
    </div>
    <div class="form-row">
      <InputField
        form={form}
        name="lb"
        label="It gave"
        hint="Leave it blank to take the year back."
        inputMode="decimal"
        width="short"
      />
      <SelectField form={form} name="amountUnit" label="In" choices={units} />
      <InputField
        form={form}
        name="plants"
        label="Plants"
        hint="Leave it blank if you did not count."
        inputMode="numeric"
        width="short"
      />
    </div>
    <p>
      <Button weight="main">Write it down</Button>
    </p>
  </PostForm>
);
