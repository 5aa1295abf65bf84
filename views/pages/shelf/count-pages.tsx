import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button, ButtonLink } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type FormState, InputField, RadioField } from '../../parts/fields.tsx';
import { type Choice, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

export type CountState = FormState<Readonly<Record<'units' | 'explainedAs', string>>>;

/** One item to count. The book's figure stays hidden until a figure was typed. */
export interface CountItemProps {
  readonly form: CountState;
  readonly itemId: string;
  readonly item: ItemLabel;
  /** "7 of 35" */
  readonly progress: string;
  /** "Count the pints and half-pints together as pints: a half-pint is a half." */
  readonly how: string;
  readonly unit: string;
  /** Where its batches stand. */
  readonly places: string;
  /** Shown once the typed figure differs from the book's. */
  readonly difference: CountDifference | null;
  readonly skip: string;
}

export interface CountDifference {
  /** "The book says 9; you counted 7: 2 fewer." */
  readonly words: string;
  readonly explanations: readonly Choice[];
}

export const CountItemPage = ({ frame, count }: { frame: Frame; count: CountItemProps }) => (
  <Page
    frame={frame}
    title={`Count ${count.item.name}`}
    section="shelf"
    about="Counting the shelf, item by item."
    moreCss={frame.assets.paperCss}
  >
    <p class="page-back">
      <a href="/shelf/count">Count the shelf</a>
    </p>
    <CountItem {...count} />
  </Page>
);

const CountItem = (props: CountItemProps) => (
  <section id="count" class="count">
    <p class="count-progress">{props.progress}</p>
    <h1 class="page-title">
      <ItemName item={props.item} />
    </h1>
    <p class="page-line">{props.places}</p>
    <PostForm action="/shelf/counts" form={props.form} label={`Count ${props.item.name}`}>
      <input type="hidden" name="itemId" value={props.itemId} />
      <InputField
        form={props.form}
        name="units"
        label="How many are there"
        hint={props.how}
        inputMode="decimal"
        width="short"
        unit={props.unit}
      />
      {props.difference === null ? null : <Difference form={props.form} {...props.difference} />}
      <p class="page-actions">
        <Button weight="main" big>
          {props.difference === null ? 'Next' : 'Save and next'}
        </Button>
        <ButtonLink href={props.skip}>Skip</ButtonLink>
      </p>
    </PostForm>
  </section>
);

const Difference = ({ form, words, explanations }: CountDifference & { form: CountState }) => (
  <div class="count-difference" role="status">
    <p>
      <strong>{words}</strong>
    </p>
    <RadioField form={form} name="explainedAs" label="What happened" choices={explanations} />
  </div>
);

export interface CountOverviewProps {
  readonly frame: Frame;
  /** Link to the first item that was not counted today; null when all were. */
  readonly next: string | null;
  readonly begun: boolean;
  /** "About a third of what you eat is only seen at counts." */
  readonly learnt: string | null;
  readonly counted: readonly CountedLine[];
  readonly waiting: readonly WaitingLine[];
}

export interface CountedLine {
  readonly itemId: string;
  readonly item: ItemLabel;
  readonly counted: string;
  readonly book: string;
  readonly explained: string;
}

export interface WaitingLine {
  readonly itemId: string;
  readonly item: ItemLabel;
  readonly lastCounted: string;
}

export const CountOverviewPage = (props: CountOverviewProps) => (
  <Page
    frame={props.frame}
    title="Count the shelf"
    section="shelf"
    about="Counting the shelf once a month."
    moreCss={props.frame.assets.paperCss}
  >
    <p class="page-back">
      <a href="/shelf">Shelf</a>
    </p>
    <h1 class="page-title">Count the shelf</h1>
    <p class="page-line">
      Once a month, item by item. What is missing counts as eaten but not written down, unless you say
      otherwise.
    </p>
    {props.learnt === null ? null : <p class="quiet">{props.learnt}</p>}
    <p class="page-actions">
      {props.next === null ? (
        <strong>Everything was counted today.</strong>
      ) : (
        <ButtonLink weight="main" href={props.next}>
          {props.begun ? 'Go on counting' : 'Start counting'}
        </ButtonLink>
      )}
      <ButtonLink href="/shelf/sheet">Pantry-door sheet</ButtonLink>
      <ButtonLink href="/shelf/tallies">Enter a sheet</ButtonLink>
      <ButtonLink href="/shelf/places">What is where</ButtonLink>
    </p>
    {props.counted.length === 0 ? null : <CountedToday counted={props.counted} />}
    <StillToCount waiting={props.waiting} />
  </Page>
);

const CountedToday = ({ counted }: Pick<CountOverviewProps, 'counted'>) => (
  <Part title="Counted today">
    <DataTable
      caption="Counted today"
      columns={[
        { title: 'item', heading: true },
        { title: 'counted', kind: 'number' },
        { title: 'book said', kind: 'number' },
        { title: 'what happened' },
      ]}
      rows={counted.map((line) => ({
        key: line.itemId,
        cells: [<ItemName key="name" item={line.item} />, line.counted, line.book, line.explained],
      }))}
    />
  </Part>
);

const StillToCount = ({ waiting }: Pick<CountOverviewProps, 'waiting'>) => (
  <Part title="Still to count">
    {waiting.length === 0 ? (
      <EmptyState
        text="Nothing is left to count today."
        action={{ words: 'Back to the shelf', href: '/shelf' }}
      />
    ) : (
      <ul class="count-waiting">
        {waiting.map((line) => (
          <li key={line.itemId}>
            <ItemName item={line.item} /> <span class="quiet">{line.lastCounted}</span>
          </li>
        ))}
      </ul>
    )}
  </Part>
);
