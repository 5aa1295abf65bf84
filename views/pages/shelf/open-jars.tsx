import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';

/** Jars of one batch opened on one day. */
export interface OpenJarsLine {
  readonly lotId: string;
  /** Calendar date of the opening, as the form sends it. */
  readonly openedOn: string;
  /** "2 pints of Green beans, opened Aug 15" */
  readonly words: string;
  /** "Keep cold, eat by Aug 18." or that the limit is past. */
  readonly limit: string;
  readonly isPast: boolean;
  readonly jars: number;
  readonly keys: FormKeys;
}

interface OpenJarsProps {
  readonly jars: readonly OpenJarsLine[];
  /** Where the answer leads: back to the list of all, or to the item's page. */
  readonly answers: 'list' | 'item';
}

export const OpenJars = ({ jars, answers }: OpenJarsProps) => (
  <ul class="open-jars">
    {jars.map((line) => (
      <li key={`${line.lotId} ${line.openedOn}`} id={`open-${line.lotId}-${line.openedOn}`}>
        <p>
          {line.words} <span class={line.isPast ? 'open-past' : 'quiet'}>{line.limit}</span>
        </p>
        <PostForm class="page-actions" action="/shelf/finished-jars" keys={line.keys} label={line.words}>
          <input type="hidden" name="lotId" value={line.lotId} />
          <input type="hidden" name="openedOn" value={line.openedOn} />
          <input type="hidden" name="answers" value={answers} />
          <Button name="jars" value="1" label={`Finished one: ${line.words}`}>
            {line.jars === 1 ? 'Finished' : 'Finished one'}
          </Button>
          {line.jars === 1 ? null : (
            <Button name="jars" value={String(line.jars)} label={`All finished: ${line.words}`}>
              All finished
            </Button>
          )}
        </PostForm>
      </li>
    ))}
  </ul>
);
