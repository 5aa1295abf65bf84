import type { ComponentChildren } from 'preact';
import { useContext } from 'preact/hooks';
import type { FormValues } from '../../shared/schemas/form-fields.ts';
import { elementId } from '../words/element-id.ts';
import { drawnOnce } from './drawn-once.tsx';
import { type Choice, type FieldProblems, type FormKeys, noProblems } from './form.tsx';
import { MoneySign } from './money-sign.ts';

// The one place where a field is wired: a page names the form and the field, and what stands in it and what is wrong with it
// come from the form. A name that the form does not have is refused by the compiler.

/** What stands in the fields of a form by their names: text, or whether a box is ticked. */
export type FieldValues = Readonly<Record<string, string | boolean>>;

/** The fields of a form as they stand: what is kept or was typed, and what has to be mended of it. */
export interface FormFields<Values extends FieldValues> {
  /** Words that make the ids of its fields unique on the page. */
  readonly formId: string;
  readonly values: Values;
  readonly problems: FieldProblems;
}

/** One form that changes something, as it stands. */
export interface FormState<Values extends FieldValues> extends FormFields<Values> {
  readonly keys: FormKeys;
}

/** The state of a form that is read by a schema, its values as `FormValues` has them. */
export type StateOf<Schema, Without extends string = never, Besides extends string = never> = FormState<
  FormValues<Schema, Without, Besides>
>;

/** The fields of a form that asks, or that nothing can be wrong with. */
export const fieldsWith = <Values extends FieldValues>(
  formId: string,
  values: Values,
): FormFields<Values> => ({
  formId,
  values,
  problems: noProblems,
});

/** Whether something in one of the forms has to be mended: then it stands open. */
export const hasProblems = (...forms: readonly { readonly problems: FieldProblems }[]): boolean =>
  forms.some(({ problems }) => Object.keys(problems).length > 0);

/** Names of the fields that hold text, or those that are ticked. */
export type NamesOf<Values, Kind> = {
  [Name in keyof Values]: Values[Name] extends Kind ? Name : never;
}[keyof Values] &
  string;

/** A field of a form: its name is one of the form's, and its value and problem are those the form has for it. */
interface OwnField<Values extends FieldValues, Kind> {
  readonly form: FormFields<Values>;
  readonly name: NamesOf<Values, Kind>;
  readonly label: string;
  readonly hint?: string | undefined;
}

/** What a field shows of the form it belongs to. */
interface Wired {
  readonly id: string;
  readonly text: string;
  readonly problem: string | undefined;
  readonly describedBy: string | undefined;
}

function wired<Values extends FieldValues, Kind>({ form, name, hint }: OwnField<Values, Kind>): Wired {
  const id = elementId(form.formId, name);
  const value = form.values[name];
  // Names that are made of an id are known only here.
  if (value === undefined) throw new Error(`wired: the form ${form.formId} has no field ${name}`);
  const problem = form.problems[name];
  const parts = [
    ...(hint === undefined ? [] : [`${id}-hint`]),
    ...(problem === undefined ? [] : [`${id}-problem`]),
  ];
  return {
    id,
    text: typeof value === 'string' ? value : '',
    problem,
    describedBy: parts.length === 0 ? undefined : parts.join(' '),
  };
}

const Hint = ({ id, hint }: { id: string; hint: string | undefined }) =>
  hint === undefined ? null : (
    <p class="hint" id={`${id}-hint`}>
      {hint}
    </p>
  );

const ProblemOf = ({ id, problem }: Pick<Wired, 'id' | 'problem'>) =>
  problem === undefined ? null : (
    <p class="problem" id={`${id}-problem`}>
      {problem}
    </p>
  );

const withProblem = (classes: string, { problem }: Pick<Wired, 'problem'>): string =>
  problem === undefined ? classes : `${classes} field-with-problem`;

const isInvalid = ({ problem }: Pick<Wired, 'problem'>) => (problem === undefined ? undefined : 'true');

interface FieldProps extends Pick<OwnField<FieldValues, string>, 'label' | 'hint'> {
  readonly wire: Wired;
  readonly isShort?: boolean;
  readonly children: ComponentChildren;
}

/** What fits under one column of the grid: a longer hint, or a problem, is read over two. */
const isBrief = ({ hint = '', wire }: FieldProps): boolean => hint.length <= 40 && wire.problem === undefined;

const Field = (props: FieldProps) => {
  const { label, hint, wire, isShort = false, children } = props;
  return (
    <div class={withProblem(`field${isShort && isBrief(props) ? ' field-short' : ''}`, wire)}>
      <label for={wire.id}>{label}</label>
      <Hint id={wire.id} hint={hint} />
      {children}
      <ProblemOf {...wire} />
    </div>
  );
};

interface InputLooks {
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
  /** A link that opens something: it stands in no page. */
  readonly secret?: true;
}

/** What is typed in secret stands in no page. */
const isSecret = ({ type, autocomplete, secret }: InputLooks): boolean =>
  type === 'password' || autocomplete === 'one-time-code' || secret === true;

/** One line of text, a number (with inputMode decimal), or a day or time, chosen with the browser's own picker. */
export const InputField = <Values extends FieldValues>(props: OwnField<Values, string> & InputLooks) => {
  const wire = wired(props);
  const sign = useContext(MoneySign);
  const unit =
    props.money === undefined ? props.unit : props.money === true ? sign : `${sign} ${props.money}`;
  return (
    <Field label={props.label} hint={props.hint} wire={wire} isShort={props.width === 'short'}>
      <span class={`input-line input-${props.width ?? 'medium'}`}>
        <input
          id={wire.id}
          name={props.name}
          // The typings want each type spelled out on its own; the attributes used here fit all of them.
          type={(props.type ?? 'text') as 'text'}
          inputMode={props.inputMode ?? 'text'}
          value={isSecret(props) ? '' : wire.text}
          autocomplete={props.autocomplete ?? 'off'}
          aria-describedby={wire.describedBy}
          aria-invalid={isInvalid(wire)}
          list={props.suggestions === undefined ? undefined : `${wire.id}-known`}
        />
        {props.suggestions === undefined ? null : (
          <datalist id={`${wire.id}-known`}>
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

interface Choices {
  readonly choices: readonly Choice[];
}

interface SelectLooks extends Choices {
  /** What the page script may choose from what the device knows, while nothing is chosen. */
  readonly proposes?: 'time-zone';
}

/** One of a list that may be long. */
export const SelectField = <Values extends FieldValues>(props: OwnField<Values, string> & SelectLooks) => {
  const wire = wired(props);
  return (
    <Field label={props.label} hint={props.hint} wire={wire}>
      <select
        id={wire.id}
        name={props.name}
        data-proposes={props.proposes}
        aria-describedby={wire.describedBy}
        aria-invalid={isInvalid(wire)}
      >
        {props.choices.length > fewChoices ? (
          <ManyOptions choices={props.choices} chosen={wire.text} />
        ) : (
          <Options choices={props.choices} chosen={wire.text} />
        )}
      </select>
    </Field>
  );
};

interface OptionsProps {
  readonly choices: readonly Choice[];
  readonly chosen: string;
}

const Options = ({ choices, chosen }: OptionsProps) => (
  <>
    {choices.map((choice) => (
      <option key={choice.value} value={choice.value} selected={choice.value === chosen}>
        {choice.words}
      </option>
    ))}
  </>
);

/** Lists of so many are made for one page; longer ones are of all currencies, zones and crops. */
const fewChoices = 50;
const ManyOptions = drawnOnce('choices', Options);

/** One of a few, all in sight. */
export const RadioField = <Values extends FieldValues>(props: OwnField<Values, string> & Choices) => {
  const wire = wired(props);
  return (
    <fieldset class={withProblem('field radio-field', wire)} aria-describedby={wire.describedBy}>
      <legend>{props.label}</legend>
      <Hint id={wire.id} hint={props.hint} />
      {props.choices.map((choice) => (
        <label key={choice.value} class="choice">
          <input type="radio" name={props.name} value={choice.value} checked={choice.value === wire.text} />
          <span>{choice.words}</span>
        </label>
      ))}
      <ProblemOf {...wire} />
    </fieldset>
  );
};

interface CheckLooks {
  /** What is sent when it is ticked. */
  readonly value?: string;
}

/** Yes or no. */
export const CheckField = <Values extends FieldValues>(props: OwnField<Values, boolean> & CheckLooks) => {
  const wire = wired(props);
  return (
    <div class={withProblem('field', wire)}>
      <label class="choice">
        <input
          id={wire.id}
          type="checkbox"
          name={props.name}
          value={props.value ?? 'yes'}
          checked={props.form.values[props.name] === true}
          aria-describedby={wire.describedBy}
          aria-invalid={isInvalid(wire)}
        />
        <span>{props.label}</span>
      </label>
      <Hint id={wire.id} hint={props.hint} />
      <ProblemOf {...wire} />
    </div>
  );
};
