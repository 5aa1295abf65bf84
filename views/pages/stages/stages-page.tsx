import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { EmptyState } from '../../parts/part.tsx';
import { Stages, type StagesProps } from '../../parts/stages.tsx';

export interface StagesPageProps {
  readonly frame: Frame;
  readonly stages: StagesProps;
}

/** Everything that waits before its canner load, and every recipe that has to. */
export const StagesPage = ({ frame, stages }: StagesPageProps) => (
  <Page
    frame={frame}
    title="Before the canner"
    section="stages"
    about="What is soaked, salted, fermented or left to stand before its canner load, and since when."
  >
    <h1 class="page-title">Before the canner</h1>
    <p class="more not-on-paper">
      <a href="/stages/paper">On paper</a> · <a href="/canning-day">Canning day</a> ·{' '}
      <a href="/">This week</a>
    </p>
    {stages.recipes.length === 0 ? (
      <EmptyState text="No recipe of this household has to wait before its canner load." />
    ) : (
      <Stages stages={stages} title="By recipe" />
    )}
  </Page>
);
