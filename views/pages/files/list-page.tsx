import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type FormFields, fieldsWith, InputField, SelectField } from '../../parts/fields.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';

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
  /** Why nothing was brought in, when it belongs to no row. */
  readonly message: string | null;
  /** Rows that do not fit, alike faults drawn together. */
  readonly faults: {
    readonly shown: readonly { readonly lines: string; readonly column: string; readonly message: string }[];
    /** Lines of the faults that are not shown one by one; empty when all are. */
    readonly others: string;
  };
  /** Every fault of every row, as a list. */
  readonly faultsHref: string;
  /** Names nobody keeps yet: each is added, or is another name of an item. */
  readonly newNames: {
    readonly names: readonly NewName[];
    readonly ways: readonly Choice[];
    readonly families: readonly Choice[];
    readonly jars: readonly Choice[];
    /** Set when there are more than can be asked about. */
    readonly tooMany: string | null;
  };
  readonly preview: readonly { readonly key: string; readonly name: string; readonly words: string }[];
  /** Null while something has to be mended. */
  readonly bringIn: { readonly words: string; readonly keys: FormKeys } | null;
}

/** One name of the list, and what is said about it. */
export interface NewName {
  readonly name: string;
  /** "3 rows, lines 2, 5 and 9" */
  readonly where: string;
  /** Names of its fields in the form. */
  readonly fields: Readonly<Record<'name' | 'as' | 'family' | 'jar' | 'days', string>>;
  readonly form: FormFields<Readonly<Record<string, string>>>;
}

/** One list on its way in: which column is what, what it holds, what does not fit. */
export const ListPage = (props: ListPageProps) => (
  <Page
    frame={props.frame}
    title={`Bring in ${props.fileName}`}
    section="print"
    about="Name the columns of a list and see what it holds."
  >
    <p class="page-back">
      <a href="/files">{pageNames.files}</a>
    </p>
    <h1 class="page-title">{props.fileName}</h1>
    <p class="page-line">{`${props.kindWords}. ${props.summary}`}</p>
    <Part title="Which column is what">
      <form method="get" action={`/files/lists/${props.id}`} class="form">
        <div class="form-row">
          {props.fields.map((field) => (
            <SelectField
              key={field.name}
              form={fieldsWith('list', { [field.name]: field.value })}
              name={field.name}
              label={field.words}
              choices={props.columns}
            />
          ))}
          <SelectField
            form={fieldsWith('list', { dates: props.dates.value })}
            name="dates"
            label="Dates are written"
            choices={props.dates.choices}
          />
        </div>
        <p>
          <Button>Look again</Button>
        </p>
      </form>
    </Part>
    {props.message === null ? null : (
      <p class="banner banner-problem" role="alert">
        {props.message}
      </p>
    )}
    {props.faults.shown.length === 0 ? null : <Faults {...props} />}
    <Part title="What it holds" id="holds">
      <ul class="plain-list">
        {props.preview.map((line) => (
          <li key={line.key}>
            {line.name} <span class="quiet">{line.words}</span>
          </li>
        ))}
      </ul>
    </Part>
    <BringIn {...props} />
  </Page>
);

const Faults = ({ faults, faultsHref }: ListPageProps) => (
  <Part
    title="To be mended"
    id="faults"
    line="Nothing is brought in until every row fits. Mend the file and send it again, or choose other columns."
  >
    <DataTable
      caption="Rows that do not fit"
      columns={[{ title: 'lines', heading: true }, { title: 'column' }, { title: 'what is wrong' }]}
      rows={faults.shown.map((fault, place) => ({
        key: `${fault.column}-${place}`,
        cells: [fault.lines, fault.column, fault.message],
      }))}
    />
    {faults.others === '' ? null : <p class="quiet">{`And more faults on the lines ${faults.others}.`}</p>}
    <p class="page-actions">
      <a href={faultsHref}>All of them as a list (CSV)</a>
    </p>
  </Part>
);

/** What is still to be said about new names, and the button that brings everything in. */
const BringIn = (props: ListPageProps) => {
  const { newNames, bringIn } = props;
  if (newNames.tooMany !== null) return <p class="banner banner-note">{newNames.tooMany}</p>;
  if (bringIn === null) return newNames.names.length === 0 ? null : <NamesToCome names={newNames.names} />;
  return (
    <PostForm
      action={`/files/lists/${props.id}/import`}
      keys={bringIn.keys}
      label="Bring the list in"
      class="bring-in"
    >
      {props.fields.map((field) => (
        <input key={field.name} type="hidden" name={field.name} value={field.value} />
      ))}
      <input type="hidden" name="dates" value={props.dates.value} />
      <Part
        title={newNames.names.length === 0 ? 'Bring it in' : 'Not kept yet'}
        id="bring-in"
        line={newNames.names.length === 0 ? 'All of it, or nothing.' : newNamesLine}
      >
        {newNames.names.map((name) => (
          <NewNameFields key={name.name} name={name} choices={newNames} />
        ))}
        <p class="page-actions">
          <Button weight="main">{bringIn.words}</Button>
        </p>
      </Part>
    </PostForm>
  );
};

const newNamesLine =
  'Say what each is: it is added with the list, or its rows go to something you keep already. All of it is brought in together, or nothing.';

const NamesToCome = ({ names }: { names: readonly NewName[] }) => (
  <Part
    title="Not kept yet"
    id="new-names"
    line="Once every row fits you can add these with the list, or say which item each is."
  >
    <ul class="plain-list">
      {names.map(({ name, where }) => (
        <li key={name}>
          {name} <span class="quiet">{where}</span>
        </li>
      ))}
    </ul>
  </Part>
);

const NewNameFields = ({
  name: { name, where, fields, form },
  choices,
}: {
  name: NewName;
  choices: ListPageProps['newNames'];
}) => (
  <fieldset class="new-name">
    <legend>
      {name} <span class="quiet">{where}</span>
    </legend>
    <input type="hidden" name={fields.name} value={name} />
    <div class="form-row">
      <SelectField form={form} name={fields.as} label="What it is" choices={choices.ways} />
      <SelectField form={form} name={fields.family} label="Family" choices={choices.families} />
      <SelectField form={form} name={fields.jar} label="Jar, if in jars" choices={choices.jars} />
      <InputField
        form={form}
        name={fields.days}
        label="Best quality"
        inputMode="numeric"
        width="short"
        unit="days"
      />
    </div>
  </fieldset>
);
