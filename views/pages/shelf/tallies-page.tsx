import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormState, InputField, RadioField } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';

export interface TalliesPageProps {
  readonly frame: Frame;
  /** How the figures are meant, up to which day, and one of each item. */
  readonly form: FormState<Readonly<Record<string, string>>>;
  readonly lines: readonly TallyLine[];
}

export interface TallyLine {
  readonly itemId: string;
  /** `units-` and the item. */
  readonly name: string;
  readonly item: ItemLabel;
  readonly unit: string;
}

/** A whole sheet in one form: what was ticked, or what was counted; an empty field leaves an item alone. */
export const TalliesPage = ({ frame, form, lines }: TalliesPageProps) => (
  <Page
    frame={frame}
    title="Enter a sheet"
    section="shelf"
    about="A pantry-door sheet, entered in one go."
    moreCss={frame.assets.paperCss}
  >
    <p class="page-back">
      <a href="/shelf/sheet">Pantry-door sheet</a>
    </p>
    <h1 class="page-title">Enter a sheet</h1>
    <p class="page-line">
      Leave blank what you did not tick or count. What is missing counts as eaten but not written down.
    </p>
    <PostForm action="/shelf/tallies" form={form} label="A sheet from the pantry door">
      <RadioField
        form={form}
        name="mode"
        label="The figures are"
        choices={[
          { value: 'ticked', words: 'boxes ticked: taken' },
          { value: 'counted', words: 'counted: still there' },
        ]}
      />
      <InputField form={form} name="countedOn" type="date" label="Up to which day" />
      <ul class="tally-lines">
        {lines.map((line) => (
          <li key={line.itemId}>
            <label for={`tally-${line.itemId}`}>
              <ItemName item={line.item} />
            </label>
            <span class="input-line input-short">
              <input
                type="text"
                id={`tally-${line.itemId}`}
                name={line.name}
                inputMode="decimal"
                autocomplete="off"
                value={form.values[line.name]}
                aria-invalid={form.problems[line.name] === undefined ? undefined : 'true'}
                aria-describedby={
                  form.problems[line.name] === undefined ? undefined : `tally-${line.itemId}-problem`
                }
              />
              <span class="unit">{line.unit}</span>
            </span>
            {form.problems[line.name] === undefined ? null : (
              <p class="problem" id={`tally-${line.itemId}-problem`}>
                {form.problems[line.name]}
              </p>
            )}
          </li>
        ))}
      </ul>
      <p>
        <Button weight="main">Save the sheet</Button>
      </p>
    </PostForm>
  </Page>
);
