import type { FieldProblems, FormKeys } from '../../parts/form.tsx';

/** One form as it stands: its keys, what its fields hold, and what has to be mended. */
export interface FormState<Values> {
  readonly keys: FormKeys;
  readonly values: Values;
  readonly problems: FieldProblems;
}

/** Whether something in one of the forms has to be mended: then it stands open. */
export const hasProblems = (...forms: readonly { readonly problems: FieldProblems }[]): boolean =>
  forms.some(({ problems }) => Object.keys(problems).length > 0);
