import type { Message } from '../../layout/frame.ts';
import { PostForm, type PostFormProps } from '../../parts/form.tsx';

/** What was saved last, said in the part where it stands. */
export interface Said {
  readonly said?: Message | undefined;
}

type KitchenFormProps = PostFormProps & {
  /** Part of the page that is saved in place; what depends on the kitchen as a whole is redrawn with it. */
  readonly part: string;
};

/** A form of the kitchen page: saved without losing the page. */
export const KitchenForm = ({ part, ...form }: KitchenFormProps) => (
  <PostForm within={`#${part}`} besides="#kitchen-line,#tested" {...form} />
);
