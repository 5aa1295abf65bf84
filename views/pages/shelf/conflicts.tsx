import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

/** A take that the book had no unit for; it waits until somebody says what it was. */
export interface ConflictLine {
  readonly id: string;
  readonly itemId: string;
  /** "Grape jelly: 1 taken on Aug 12, but the book had none left." */
  readonly words: string;
  readonly keys: FormKeys;
}

export const Conflicts = ({ conflicts }: { conflicts: readonly ConflictLine[] }) =>
  conflicts.length === 0 ? null : (
    <Part
      id="conflicts"
      title="Shelf and book differ"
      line="Nothing of this is lost; say what it was, or count the item."
    >
      <ul class="conflicts">
        {conflicts.map((conflict) => (
          <li key={conflict.id}>
            <p>{conflict.words}</p>
            <PostForm
              class="page-actions"
              action={`/shelf/conflicts/${conflict.id}/settlement`}
              keys={conflict.keys}
              label={conflict.words}
            >
              <Button name="settledAs" value="was the same jar">
                Same jar, said twice
              </Button>
              <Button name="settledAs" value="found at the count">
                Settled by counting
              </Button>
              <a class="button button-quiet" href={`/shelf/count?item=${conflict.itemId}`}>
                Count it
              </a>
            </PostForm>
          </li>
        ))}
      </ul>
    </Part>
  );
