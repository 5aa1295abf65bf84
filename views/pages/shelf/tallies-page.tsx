import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FieldProblems, type FormKeys, InputField, PostForm, RadioField } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';

export interface TalliesPageProps {
  readonly frame: Frame;
  readonly keys: FormKeys;
  readonly mode: string;
  readonly on: string;
  readonly lines: readonly TallyLine[];
  readonly problems: FieldProblems;
}

export interface TallyLine {
  readonly itemId: string;
  readonly item: ItemLabel;
  readonly unit: string;
  readonly value: string;
  readonly problem: string | undefined;
}

/** A whole sheet in one form: what was ticked, or what was counted; an empty field leaves an item alone. */
export const TalliesPage = ({ frame, keys, mode, on, lines, problems }: TalliesPageProps) => (
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
    <PostForm action="/shelf/tallies" keys={keys} problems={problems} label="A sheet from the pantry door">
      <RadioField
        form="tallies"
        name="mode"
        label="The figures are"
        value={mode}
        choices={[
          { value: 'ticked', words: 'boxes ticked: taken' },
          { value: 'counted', words: 'counted: still there' },
        ]}
        problem={problems.mode}
      />
      <InputField
        form="tallies"
        name="countedOn"
        type="date"
        label="Up to which day"
        value={on}
        problem={problems.countedOn}
      />
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
                name={`units-${line.itemId}`}
                inputMode="decimal"
                autocomplete="off"
                value={line.value}
                aria-invalid={line.problem === undefined ? undefined : 'true'}
                aria-describedby={line.problem === undefined ? undefined : `tally-${line.itemId}-problem`}
              />
              <span class="unit">{line.unit}</span>
            </span>
            {line.problem === undefined ? null : (
              <p class="problem" id={`tally-${line.itemId}-problem`}>
                {line.problem}
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
