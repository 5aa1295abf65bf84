import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { EmptyState } from '../../parts/part.tsx';
import { OpenJars, type OpenJarsLine } from './open-jars.tsx';
import { UndoBar, type UndoBarProps } from './undo-bar.tsx';

export interface OpenJarsPageProps {
  readonly frame: Frame;
  readonly undo: UndoBarProps;
  readonly jars: readonly OpenJarsLine[];
}

/** What stands open in the refrigerator, and until when. */
export const OpenJarsPage = ({ frame, undo, jars }: OpenJarsPageProps) => (
  <Page
    frame={frame}
    title="Open jars"
    section="shelf"
    about="Jars that stand open in the refrigerator, and until when they keep."
  >
    <p class="page-back">
      <a href="/shelf">Shelf</a>
    </p>
    <h1 class="page-title">Open jars</h1>
    <p class="page-line">
      Each keeps in the refrigerator until its day, no longer. Marking a jar finished is optional; it only
      clears it from this list.
    </p>
    <UndoBar {...undo} />
    {jars.length === 0 ? (
      <EmptyState text="No open jar is written down." />
    ) : (
      <OpenJars jars={jars} answers="list" />
    )}
  </Page>
);
