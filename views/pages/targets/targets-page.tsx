import { counted } from '../../../shared/counting.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { ButtonLink } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { hasProblems } from '../../parts/fields.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';
import { EmergencyPart, type EmergencyProps } from './emergency-part.tsx';
import { GroupTarget, type GroupTargetProps } from './group-target.tsx';
import { MealsPart, type MealsProps } from './meals-part.tsx';
import { RecordedSince, type RecordedSinceProps } from './recorded-since.tsx';

export interface TargetsPageProps {
  readonly frame: Frame;
  /** "About one jar in three goes unrecorded until you count the shelf." */
  readonly untapped: string | null;
  readonly preserves: readonly TargetLine[];
  readonly staples: readonly TargetLine[];
  readonly groups: readonly GroupTargetProps[];
  readonly meals: MealsProps;
  readonly emergency: EmergencyProps;
  readonly recordedSince: RecordedSinceProps;
}

/** One item's appetite and its year, in words and figures. */
export interface TargetLine {
  readonly itemId: string;
  readonly item: ItemLabel;
  readonly declared: string;
  readonly observed: string;
  readonly forecast: string;
  readonly evidence: string;
  /** "68 pints" */
  readonly year: string;
  /** "use 60, gifts 4, reserve 4", or "set by hand; the forecast says 61". */
  readonly madeOf: string;
}

export const TargetsPage = ({
  frame,
  untapped,
  preserves,
  staples,
  groups,
  meals,
  emergency,
  recordedSince,
}: TargetsPageProps) => (
  <Page
    frame={frame}
    title={pageNames.targets}
    section="targets"
    about="How much you eat of each thing, and what a year needs."
    wide
    moreCss={frame.assets.comparedCss}
  >
    <h1 class="page-title">{pageNames.targets}</h1>
    <p class="page-line">
      What you said you eat, what you really ate, and how many a year takes. Open an item to change it.
    </p>
    <p class="page-actions actions-in-line">
      <ButtonLink href="/items/new">Add something to keep</ButtonLink>
      <ButtonLink href="/items">{pageNames.items}</ButtonLink>
      <ButtonLink href="/look-back#advice">Suggestions for next year</ButtonLink>
    </p>
    {untapped === null ? null : <p class="quiet">{untapped}</p>}
    <TargetsPart title="Put up here" lines={preserves} />
    <TargetsPart title="Bought" lines={staples} />
    <Part
      title="Groups"
      folded={{
        words: groups.length === 0 ? 'None yet' : counted(groups.length, 'group'),
        open: hasProblems(...groups.map(({ form }) => form)),
      }}
    >
      <p>One can replace another: enough altogether, and enough kinds.</p>
      {groups.length === 0 ? (
        <EmptyState text="No group has been made." />
      ) : (
        groups.map((group) => <GroupTarget key={group.groupId} {...group} />)
      )}
    </Part>
    <MealsPart {...meals} />
    <EmergencyPart {...emergency} />
    <RecordedSince {...recordedSince} />
  </Page>
);

const TargetsPart = ({ title, lines }: { title: string; lines: readonly TargetLine[] }) => (
  <Part title={title}>
    {lines.length === 0 ? (
      <EmptyState text="Nothing here yet." />
    ) : (
      <div class="targets-table">
        <DataTable
          caption={`${title}: what you said, what was seen and what is expected, by the month, and what a year needs`}
          columns={[
            { title: 'item', heading: true },
            { title: 'you said' },
            { title: 'seen' },
            { title: 'expected' },
            { title: 'a year needs', kind: 'number' },
            { title: 'made of' },
          ]}
          rows={lines.map((line) => ({
            key: line.itemId,
            cells: [
              <ItemName key="name" item={line.item} />,
              line.declared,
              <span key="seen">
                {line.observed}
                {line.evidence === '' ? null : <span class="small quiet seen-evidence">{line.evidence}</span>}
              </span>,
              line.forecast,
              <strong key="year">{line.year}</strong>,
              <span key="of" class="small quiet">
                {line.madeOf}
              </span>,
            ],
          }))}
        />
      </div>
    )}
  </Part>
);
