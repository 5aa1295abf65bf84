import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

export interface WaitingLine {
  readonly id: string;
  /** `3 lb apple pulp: use by Tuesday, August 25` */
  readonly words: string;
  readonly keys: FormKeys;
}

/** By-products and fresh material that must be used soon. */
export const Waiting = ({ waiting }: { waiting: readonly WaitingLine[] }) =>
  waiting.length === 0 ? null : (
    <Part title="Waiting to be used" id="waiting">
      <ul class="plain-list">
        {waiting.map(({ id, words, keys }) => (
          <li key={id}>
            {words}
            <PostForm action={`/waiting/${id}`} keys={keys} class="inline-form" label={words}>
              <Button weight="quiet" name="as" value="used">
                Used up
              </Button>
              <Button weight="quiet" name="as" value="lost">
                Thrown away
              </Button>
            </PostForm>
          </li>
        ))}
      </ul>
    </Part>
  );
