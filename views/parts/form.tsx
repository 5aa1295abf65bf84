import type { ComponentChildren } from 'preact';

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

export interface Choice {
  readonly value: string;
  readonly words: string;
}
