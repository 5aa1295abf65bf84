import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type Choice, type FormKeys, PostForm, SelectField } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

export interface ListPageProps {
  readonly frame: Frame;
  readonly id: string;
  readonly fileName: string;
  readonly kindWords: string;
  readonly fields: readonly {
    readonly name: string;
    readonly words: string;
    readonly value: string;
  }[];
  readonly columns: readonly Choice[];
  readonly dates: { readonly value: string; readonly choices: readonly Choice[] };
  readonly summary: string;
  readonly problems: readonly { readonly line: number; readonly column: string; readonly message: string }[];
  readonly preview: readonly { readonly key: string; readonly name: string; readonly words: string }[];
  /** Null while something has to be mended. */
  readonly bringIn: { readonly words: string; readonly keys: FormKeys } | null;
}

/** One list on its way in: which column is what, what it holds, what does not fit. */
export const ListPage = (props: ListPageProps) => (
  <Page
    frame={props.frame}
    title={`Bring in ${props.fileName}`}
    section="files"
    about="Name the columns of a list and see what it holds."
  >
    <p class="page-back">
      <a href="/files">Files</a>
    </p>
    <h1 class="page-title">{props.fileName}</h1>
    <p class="page-line">{`${props.kindWords}. ${props.summary}`}</p>
    <Part title="Which column is what">
      <form method="get" action={`/files/lists/${props.id}`} class="form">
        <div class="form-row">
          {props.fields.map((field) => (
            <SelectField
              key={field.name}
              form="list"
              name={field.name}
              label={field.words}
              value={field.value}
              choices={props.columns}
            />
          ))}
          <SelectField
            form="list"
            name="dates"
            label="Dates are written"
            value={props.dates.value}
            choices={props.dates.choices}
          />
        </div>
        <p>
          <Button>Look again</Button>
        </p>
      </form>
    </Part>
    {props.problems.length === 0 ? null : (
      <Part
        title="To be mended"
        line="Nothing is brought in until every row fits. Mend the file and send it again, or choose other columns."
      >
        <DataTable
          caption="Rows that do not fit"
          columns={[
            { title: 'line', kind: 'number', heading: true },
            { title: 'column' },
            { title: 'what is wrong' },
          ]}
          rows={props.problems.map((problem, place) => ({
            key: `${problem.line}-${place}`,
            cells: [String(problem.line), problem.column, problem.message],
          }))}
        />
      </Part>
    )}
    <Part title="What it holds">
      <ul class="plain-list">
        {props.preview.map((line) => (
          <li key={line.key}>
            {line.name} <span class="quiet">{line.words}</span>
          </li>
        ))}
      </ul>
      {props.bringIn === null ? null : (
        <PostForm action={`/files/lists/${props.id}/import`} keys={props.bringIn.keys}>
          {props.fields.map((field) => (
            <input key={field.name} type="hidden" name={field.name} value={field.value} />
          ))}
          <input type="hidden" name="dates" value={props.dates.value} />
          <p class="page-actions">
            <Button weight="main">{props.bringIn.words}</Button>
          </p>
        </PostForm>
      )}
    </Part>
  </Page>
);
