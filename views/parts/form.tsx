import type { ComponentChildren } from 'preact';
import { useContext } from 'preact/hooks';
import { elementId } from '../words/element-id.ts';
import { MoneySign } from './money-sign.ts';

/** The two hidden values every form that changes something carries. */
export interface FormKeys {
  readonly csrf: string;
  /** Idempotency key: the same form sent twice counts once. */
  readonly key: string;
}

/** Messages by field name, and those that belong to the whole form under the empty name. */
export type FieldProblems = Readonly<Record<string, string>>;

export const noProblems: FieldProblems = {};

/** Its keys, and for a form with fields all that has to be mended in it. */
type Carried =
  | { readonly form: { readonly keys: FormKeys; readonly problems: FieldProblems } }
  | { readonly form?: undefined; readonly keys: FormKeys; readonly problems?: FieldProblems };

export type PostFormProps = Carried & PostFormLooks;

interface PostFormLooks {
  readonly action: string;
  /** CSS selector of the part that the answer replaces; without it the form is a plain one. */
  readonly replaces?: string;
  /** As `replaces`, where the answer is the whole page again: only that part of it is taken, and the parts of `besides`. */
  readonly within?: string;
  /** Selectors of what else changes with it, separated by commas. */
  readonly besides?: string;
  readonly class?: string;
  readonly label?: string;
  readonly children: ComponentChildren;
}

/** A form that changes something. Plain without script; with it, the answer replaces one part of the page. */
export const PostForm = ({ action, replaces, within, besides, label, children, ...rest }: PostFormProps) => {
  const { keys, problems } = rest.form ?? rest;
  return (
    <form
      method="post"
      action={action}
      class={rest.class ?? 'form'}
      aria-label={label}
      noValidate
      {...partAttributes(action, within ?? replaces)}
      hx-select={within}
      hx-select-oob={besides}
    >
      <input type="hidden" name="_csrf" value={keys.csrf} />
      <input type="hidden" name="key" value={keys.key} />
      {problems?.[''] === undefined ? null : (
        <p class="banner banner-problem" role="alert">
          {problems['']}
        </p>
      )}
      {children}
    </form>
  );
};

const partAttributes = (action: string, part: string | undefined) =>
  part === undefined
    ? {}
    : { 'hx-post': action, 'hx-target': part, 'hx-swap': 'outerHTML', 'hx-disable': 'find button' };

interface FieldProps {
  /** Words that make the field's id unique on the page, usually the form's name. */
  readonly form: string;
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  readonly problem?: string | undefined;
}

interface FieldIds {
  readonly id: string;
  readonly describedBy: string | undefined;
}

const idsOf = ({ form, name, hint, problem }: FieldProps): FieldIds => {
  const id = elementId(form, name);
  const parts = [hint === undefined ? '' : `${id}-hint`, problem === undefined ? '' : `${id}-problem`];
  const describedBy = parts.filter((part) => part !== '').join(' ');
  return { id, describedBy: describedBy === '' ? undefined : describedBy };
};

/** What fits under one column of the grid: a longer hint, or a problem, is read over two. */
const isBrief = ({ hint = '', problem }: FieldProps): boolean => hint.length <= 40 && problem === undefined;

const Field = ({
  field,
  ids,
  isShort = false,
  children,
}: {
  field: FieldProps;
  ids: FieldIds;
  isShort?: boolean;
  children: ComponentChildren;
}) => (
  <div
    class={`field${isShort && isBrief(field) ? ' field-short' : ''}${field.problem === undefined ? '' : ' field-with-problem'}`}
  >
    <label for={ids.id}>{field.label}</label>
    {field.hint === undefined ? null : (
      <p class="hint" id={`${ids.id}-hint`}>
        {field.hint}
      </p>
    )}
    {children}
    {field.problem === undefined ? null : (
      <p class="problem" id={`${ids.id}-problem`}>
        {field.problem}
      </p>
    )}
  </div>
);

interface InputFieldProps extends FieldProps {
  /** What the person typed, or the present value; kept as text so that a wrong value comes back as typed. */
  readonly value: string;
  readonly type?: 'text' | 'date' | 'time' | 'datetime-local' | 'search' | 'password' | 'email';
  readonly inputMode?: 'decimal' | 'numeric' | 'text';
  /** Unit shown behind the field, `lb` or `a week`. */
  readonly unit?: string;
  /** A sum of money: the sign of the household's currency stands behind the field, then for what it is, `a week`. */
  readonly money?: true | string;
  readonly width?: 'short' | 'medium' | 'full';
  readonly autocomplete?: string;
  /** Known answers to choose from while typing; others may be written too. */
  readonly suggestions?: readonly string[];
}

/** One line of text, a number (with inputMode decimal), or a day or time, chosen with the browser's own picker. */
export const InputField = (props: InputFieldProps) => {
  const ids = idsOf(props);
  const sign = useContext(MoneySign);
  const unit =
    props.money === undefined ? props.unit : props.money === true ? sign : `${sign} ${props.money}`;
  return (
    <Field field={props} ids={ids} isShort={props.width === 'short'}>
      <span class={`input-line input-${props.width ?? 'medium'}`}>
        <input
          id={ids.id}
          name={props.name}
          // The typings want each type spelled out on its own; the attributes used here fit all of them.
          type={(props.type ?? 'text') as 'text'}
          inputMode={props.inputMode ?? 'text'}
          value={props.value}
          autocomplete={props.autocomplete ?? 'off'}
          aria-describedby={ids.describedBy}
          aria-invalid={props.problem === undefined ? undefined : 'true'}
          list={props.suggestions === undefined ? undefined : `${ids.id}-known`}
        />
        {props.suggestions === undefined ? null : (
          <datalist id={`${ids.id}-known`}>
            {props.suggestions.map((known) => (
              <option key={known} value={known} />
            ))}
          </datalist>
        )}
        {unit === undefined ? null : <span class="unit">{unit}</span>}
      </span>
    </Field>
  );
};

export interface Choice {
  readonly value: string;
  readonly words: string;
}

interface ChoiceFieldProps extends FieldProps {
  readonly value: string;
  readonly choices: readonly Choice[];
}

interface SelectFieldProps extends ChoiceFieldProps {
  /** What the page script may choose from what the device knows, while nothing is chosen. */
  readonly proposes?: 'time-zone';
}

/** One of a list that may be long. */
export const SelectField = (props: SelectFieldProps) => {
  const ids = idsOf(props);
  return (
    <Field field={props} ids={ids}>
      <select
        id={ids.id}
        name={props.name}
        data-proposes={props.proposes}
        aria-describedby={ids.describedBy}
        aria-invalid={props.problem === undefined ? undefined : 'true'}
      >
        {props.choices.map((choice) => (
          <option key={choice.value} value={choice.value} selected={choice.value === props.value}>
            {choice.words}
          </option>
        ))}
      </select>
    </Field>
  );
};

/** One of a few, all in sight. */
export const RadioField = (props: ChoiceFieldProps) => {
  const ids = idsOf(props);
  return (
    <fieldset
      class={`field radio-field${props.problem === undefined ? '' : ' field-with-problem'}`}
      aria-describedby={ids.describedBy}
    >
      <legend>{props.label}</legend>
      {props.hint === undefined ? null : (
        <p class="hint" id={`${ids.id}-hint`}>
          {props.hint}
        </p>
      )}
      {props.choices.map((choice) => (
        <label key={choice.value} class="choice">
          <input type="radio" name={props.name} value={choice.value} checked={choice.value === props.value} />
          <span>{choice.words}</span>
        </label>
      ))}
      {props.problem === undefined ? null : (
        <p class="problem" id={`${ids.id}-problem`}>
          {props.problem}
        </p>
      )}
    </fieldset>
  );
};

/** Yes or no. */
export const CheckField = (props: FieldProps & { readonly checked: boolean; readonly value?: string }) => {
  const ids = idsOf(props);
  return (
    <div class={props.problem === undefined ? 'field' : 'field field-with-problem'}>
      <label class="choice">
        <input
          id={ids.id}
          type="checkbox"
          name={props.name}
          value={props.value ?? 'yes'}
          checked={props.checked}
          aria-describedby={ids.describedBy}
          aria-invalid={props.problem === undefined ? undefined : 'true'}
        />
        <span>{props.label}</span>
      </label>
      {props.hint === undefined ? null : (
        <p class="hint" id={`${ids.id}-hint`}>
          {props.hint}
        </p>
      )}
      {props.problem === undefined ? null : (
        <p class="problem" id={`${ids.id}-problem`}>
          {props.problem}
        </p>
      )}
    </div>
  );
};
