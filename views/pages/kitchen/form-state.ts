import type { FieldProblems, FormKeys } from '../../parts/form.tsx';

/** One form as it stands: its keys, what its fields hold, and what has to be mended. */
export interface FormState<Values> {
  readonly keys: FormKeys;
  readonly values: Values;
  readonly problems: FieldProblems;
}
