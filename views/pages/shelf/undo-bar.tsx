import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import type { ItemPart } from '../../parts/item-parts.tsx';
import { SuspectJar, type SuspectJarProps } from './suspect-jar.tsx';

/** The last things said about the shelf, each with the way back. */
export interface UndoBarProps {
  readonly actions: readonly UndoAction[];
  /** What to do with a jar just reported swollen, leaking or unsealed. */
  readonly suspect: SuspectJarProps | null;
  /** Set when the bar travels beside another part of an answer. */
  readonly beside?: boolean;
}

export interface UndoAction {
  /** The entry that an undo reverses: all events of one touch. */
  readonly entryId: string;
  readonly itemId: string;
  /** "Took one pint of Peach jam" */
  readonly words: string;
  /** "2 minutes ago" */
  readonly when: string;
  /** "Once open keep it cold, eat by Aug 20."; null where nothing is opened. */
  readonly keep: string | null;
  readonly keys: FormKeys;
  readonly answers: 'row' | ItemPart;
}

export const UndoBar = ({ actions: [newest, ...earlier], suspect, beside = false }: UndoBarProps) => (
  <div id="undo" class="undo-bar" aria-live="polite" hx-swap-oob={beside ? 'true' : undefined}>
    {suspect === null ? null : <SuspectJar {...suspect} />}
    {newest === undefined ? null : <UndoLine action={newest} />}
    {earlier.length === 0 ? null : (
      <details class="undo-earlier">
        <summary>{`${earlier.length} more`}</summary>
        {earlier.map((action) => (
          <UndoLine key={action.entryId} action={action} />
        ))}
      </details>
    )}
  </div>
);

const UndoLine = ({ action }: { action: UndoAction }) => (
  <div class="undo-line">
    <span class="undo-words">
      {action.words} <span class="quiet">{action.when}</span>
      {action.keep === null ? null : <span class="undo-keep"> {action.keep}</span>}
    </span>
    <PostForm
      class="undo-form"
      action="/shelf/reversals"
      keys={action.keys}
      {...(action.answers === 'row' ? { replaces: `#item-${action.itemId}` } : {})}
    >
      <input type="hidden" name="entry" value={action.entryId} />
      <input type="hidden" name="item" value={action.itemId} />
      <input type="hidden" name="answers" value={action.answers} />
      <Button weight="quiet" label={`Undo: ${action.words}`}>
        Undo
      </Button>
    </PostForm>
  </div>
);
