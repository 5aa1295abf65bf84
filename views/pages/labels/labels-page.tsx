import type { labelGridForm } from '../../../shared/schemas/shelf/label-grid.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormFields, InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { elementId } from '../../words/element-id.ts';
import { pageNames } from '../../words/page-names.ts';

export type LabelGridForm = StateOf<typeof labelGridForm>;

export interface LabelsPageProps {
  readonly frame: Frame;
  readonly lots: readonly LabelledLot[];
  /** Labels on one sheet. */
  readonly perSheet: number;
  /** Which label of the first sheet is printed first, and how many of each batch. */
  readonly counts: FormFields<Readonly<Record<string, string>>>;
  readonly grid: {
    readonly form: LabelGridForm;
    /** What lengths are shown and typed in. */
    readonly measure: 'mm' | 'in';
  };
  /** Other sheets as they are sold, each a tap to use. */
  readonly sheets: readonly {
    readonly keys: FormKeys;
    /** `Letter: 2 across, 5 down, each 4 × 2 in` */
    readonly words: string;
    readonly values: LabelGridForm['values'];
  }[];
  /** Address the codes lead to while none is said. */
  readonly ownAddress: string;
}

export interface LabelledLot {
  readonly id: string;
  readonly item: ItemLabel;
  readonly words: string;
  /** `lot-` and the batch. */
  readonly field: string;
}

/** Labels for jars: which batches, how many, on which sheet. */
export const LabelsPage = ({ frame, lots, perSheet, counts, grid, sheets, ownAddress }: LabelsPageProps) => (
  <Page
    frame={frame}
    title="Labels"
    section="print"
    about="Printed labels for jars, with a code that opens the page to take one."
  >
    <p class="page-back">
      <a href="/print">{pageNames.print}</a>
    </p>
    <h1 class="page-title">Labels</h1>
    <p class="page-line">
      Each label names the jar, its day and its batch, and carries a code that opens the page to take it.
    </p>
    <Part title="Print" line="The jars of your last canning day first. Write how many labels each needs.">
      {lots.length === 0 ? (
        <EmptyState
          text="There is nothing on the shelf to label."
          action={{ words: 'Put up or bought', href: '/shelf/put-up' }}
        />
      ) : (
        <form method="get" action="/labels/sheet" class="form">
          <LabelledLots lots={lots.slice(0, shownAtFirst)} counts={counts} />
          {lots.length <= shownAtFirst ? null : (
            <details
              open={lots.slice(shownAtFirst).some(({ field }) => counts.problems[field] !== undefined)}
            >
              <summary>{`${lots.length - shownAtFirst} older batches`}</summary>
              <LabelledLots lots={lots.slice(shownAtFirst)} counts={counts} />
            </details>
          )}
          <InputField
            form={counts}
            name="start"
            label="Begin at label"
            hint={`Counted along the rows of a sheet of ${perSheet}; for a sheet of which some are used.`}
            inputMode="numeric"
            width="short"
          />
          <p>
            <Button weight="main">Show the sheet</Button>
          </p>
        </form>
      )}
    </Part>
    <Part
      title="The sheet"
      id="grid"
      line={`From the label package, in ${grid.measure === 'in' ? 'inches' : 'millimeters'}.`}
    >
      <PostForm action="/labels/grid" form={grid.form} label="The sheet of labels">
        <input type="hidden" name="measure" value={grid.measure} />
        <div class="form-row">
          <SelectField
            form={grid.form}
            name="paper"
            label="Paper"
            choices={[
              { value: 'A4', words: 'A4' },
              { value: 'Letter', words: 'Letter' },
            ]}
          />
          <GridField grid={grid} name="columns" label="Labels across" />
          <GridField grid={grid} name="rows" label="Labels down" />
        </div>
        <div class="form-row">
          <GridField grid={grid} name="widthMm" label="Width of a label" unit={grid.measure} />
          <GridField grid={grid} name="heightMm" label="Height of a label" unit={grid.measure} />
        </div>
        <div class="form-row">
          <GridField grid={grid} name="leftMm" label="Left edge of the first" unit={grid.measure} />
          <GridField grid={grid} name="topMm" label="Top edge of the first" unit={grid.measure} />
        </div>
        <div class="form-row">
          <GridField grid={grid} name="acrossMm" label="Gap between columns" unit={grid.measure} />
          <GridField grid={grid} name="downMm" label="Gap between rows" unit={grid.measure} />
        </div>
        <InputField
          form={grid.form}
          name="address"
          label="Address for the codes"
          hint={`What a phone in the pantry opens. Leave blank for ${ownAddress}`}
          width="full"
        />
        <p>
          <Button weight="main">Save the sheet</Button>
        </p>
      </PostForm>
      {sheets.length === 0 ? null : (
        <details class="fold">
          <summary>Use a common sheet</summary>
          <ul class="plain-list">
            {sheets.map((sheet) => (
              <li key={sheet.words}>
                <PostForm action="/labels/grid" keys={sheet.keys} class="inline-form" label={sheet.words}>
                  <input type="hidden" name="measure" value={grid.measure} />
                  {Object.entries(sheet.values).map(([name, value]) => (
                    <input key={name} type="hidden" name={name} value={value} />
                  ))}
                  <Button>{sheet.words}</Button>
                </PostForm>
              </li>
            ))}
          </ul>
        </details>
      )}
    </Part>
  </Page>
);

const shownAtFirst = 12;

const LabelledLots = ({ lots, counts }: Pick<LabelsPageProps, 'lots' | 'counts'>) => (
  <ul class="label-lots">
    {lots.map((lot) => (
      <li key={lot.id}>
        <span>
          <ItemName item={lot.item} /> <span class="quiet">{lot.words}</span>
          {counts.problems[lot.field] === undefined ? null : (
            <span class="problem" id={`${elementId('labels', lot.id)}-problem`}>
              {counts.problems[lot.field]}
            </span>
          )}
        </span>
        <input
          type="text"
          name={lot.field}
          inputMode="numeric"
          value={counts.values[lot.field]}
          aria-label={`Labels for ${lot.item.name}, ${lot.words}`}
          autocomplete="off"
          {...(counts.problems[lot.field] === undefined
            ? {}
            : {
                'aria-invalid': 'true' as const,
                'aria-describedby': `${elementId('labels', lot.id)}-problem`,
              })}
        />
      </li>
    ))}
  </ul>
);

const GridField = ({
  grid,
  name,
  label,
  unit,
}: {
  grid: LabelsPageProps['grid'];
  name: keyof LabelGridForm['values'];
  label: string;
  unit?: string;
}) => (
  <InputField
    form={grid.form}
    name={name}
    label={label}
    inputMode="decimal"
    width="short"
    {...(unit === undefined ? {} : { unit })}
  />
);
