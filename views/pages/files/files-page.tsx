import type { ComponentChildren } from 'preact';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button, ButtonLink } from '../../parts/button.tsx';
import { CheckField, type FormFields } from '../../parts/fields.tsx';
import type { FieldProblems, FormKeys } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface FilesPageProps {
  readonly frame: Frame;
  readonly keys: () => FormKeys;
  readonly list: FormFields<Readonly<Record<'file', string>>>;
  readonly household: FormFields<Readonly<Record<'file', string> & Record<'sure', boolean>>>;
  /** Rows of a saved household that do not fit, one sentence each. */
  readonly unfitRows: readonly string[];
}

/** Lists and the whole household, out and in. */
export const FilesPage = ({ frame, keys, list, household, unfitRows }: FilesPageProps) => (
  <Page
    frame={frame}
    title={pageNames.files}
    section="print"
    about="Take the shelf, the ledger, the plan and the shopping list with you; bring lists in."
  >
    <p class="page-back">
      <a href="/print">{pageNames.print}</a>
    </p>
    <h1 class="page-title">{pageNames.files}</h1>
    <p class="page-line">
      Your data is yours: take it with you as lists for a spreadsheet, or the whole household as one file.
    </p>
    <Part title="Export a list" line="CSV, for any spreadsheet.">
      <p class="page-actions">
        <ButtonLink href="/files/shelf.csv">Shelf</ButtonLink>
        <ButtonLink href="/files/ledger.csv">Ledger</ButtonLink>
        <ButtonLink href="/files/plan.csv">Plan</ButtonLink>
        <ButtonLink href="/files/buying.csv">Shopping list</ButtonLink>
      </p>
    </Part>
    <Part
      title="Import a list"
      id="list"
      line="A CSV file with a row of headings. You name its columns and see what it holds before anything is written."
    >
      <FileForm
        action="/files/lists"
        keys={keys()}
        label="Import a list"
        accept=".csv,text/csv,text/plain"
        problems={list.problems}
      >
        <fieldset class="field radio-field">
          <legend>What it is</legend>
          <label class="choice">
            <input type="radio" name="kind" value="stock" checked />
            <span>what is on the shelf</span>
          </label>
          <label class="choice">
            <input type="radio" name="kind" value="past use" />
            <span>what was eaten before</span>
          </label>
        </fieldset>
        <p>
          <Button weight="main">Look at it</Button>
        </p>
      </FileForm>
    </Part>
    <Part
      title="The whole household"
      id="household"
      line="Kitchen, items, recipes, sources, ledger and notices in one JSON file. The plan is not in it; you make it again from the rest."
    >
      <p class="page-actions">
        <ButtonLink href="/files/household.json">Save the household</ButtonLink>
      </p>
      <h3>Replace this household with a saved one</h3>
      <FileForm
        action="/files/household"
        keys={keys()}
        label="Restore a household"
        accept=".json,application/json"
        problems={household.problems}
      >
        {unfitRows.length === 0 ? null : (
          <ul class="unfit-rows">
            {unfitRows.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        )}
        <CheckField
          form={household}
          name="sure"
          label="Replace everything in this household"
          hint="What is here now is gone afterwards. Save it first."
        />
        <p>
          <Button weight="main">Restore</Button>
        </p>
      </FileForm>
    </Part>
  </Page>
);

const FileForm = ({
  action,
  keys,
  label,
  accept,
  problems,
  children,
}: {
  action: string;
  keys: FormKeys;
  label: string;
  accept: string;
  problems: FieldProblems;
  children: ComponentChildren;
}) => (
  <form method="post" action={action} enctype="multipart/form-data" class="form" aria-label={label}>
    <input type="hidden" name="_csrf" value={keys.csrf} />
    <input type="hidden" name="key" value={keys.key} />
    <div class={problems.file === undefined ? 'field' : 'field field-with-problem'}>
      <label for={`file-${label.length}`}>File</label>
      <input id={`file-${label.length}`} type="file" name="file" accept={accept} />
      {problems.file === undefined && problems[''] === undefined ? null : (
        <p class="problem" role="alert">
          {problems.file ?? problems['']}
        </p>
      )}
    </div>
    {children}
  </form>
);
