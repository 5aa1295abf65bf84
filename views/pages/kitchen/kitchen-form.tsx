import type { ComponentChildren } from 'preact';
import type { Message } from '../../layout/frame.ts';
import type { FieldProblems, FormKeys } from '../../parts/form.tsx';
import { PostForm } from '../../parts/form.tsx';

/** What was saved last, said in the part where it stands. */
export interface Said {
  readonly said?: Message | undefined;
}

interface KitchenFormProps {
  /** Part of the page that is saved in place; what depends on the kitchen as a whole is redrawn with it. */
  readonly part: string;
  readonly action: string;
  readonly keys: FormKeys;
  readonly problems?: FieldProblems;
  readonly label?: string;
  readonly class?: string;
  readonly children: ComponentChildren;
}

/** A form of the kitchen page: saved without losing the page. */
export const KitchenForm = ({ part, ...form }: KitchenFormProps) => (
  <PostForm within={`#${part}`} besides="#kitchen-line,#tested" {...form} />
);
