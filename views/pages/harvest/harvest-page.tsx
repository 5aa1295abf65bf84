import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { ButtonLink } from '../../parts/button.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { GroundPart, type GroundProps } from './ground-part.tsx';
import { type SeasonAxis, SeasonMonths } from './season-strip.tsx';
import { SourceRow, type SourceRowProps } from './source-row.tsx';

export interface HarvestPageProps {
  readonly frame: Frame;
  /** "Open now: peaches, green beans. Next: tomatoes on Jul 20." */
  readonly line: string;
  readonly ground: GroundProps;
  readonly axis: SeasonAxis;
  /** Open ones first, then as they open. */
  readonly sources: readonly SourceRowProps[];
}

/** Where the crops come from, and when. */
export const HarvestPage = ({ frame, line, ground, axis, sources }: HarvestPageProps) => (
  <Page
    frame={frame}
    title="Harvest"
    section="harvest"
    about="Where the crops come from, when, and how much."
    wide
    moreCss={frame.assets.comparedCss}
  >
    <h1 class="page-title">Harvest</h1>
    <p class="page-line">{line}</p>
    <p class="page-actions">
      <ButtonLink href="/harvest/new">Add a source</ButtonLink>
      <ButtonLink href="/glut">Too much at once?</ButtonLink>
    </p>
    {sources.length === 0 ? (
      <EmptyState
        text="No source has been written down, so nothing can be planned from a harvest."
        action={{ words: 'Add the first source', href: '/harvest/new' }}
      />
    ) : (
      <Part
        id="seasons"
        title="Seasons"
        line="Hatched: picked or sold. Solid: most of it. A jar: a week you can from it. Open a row for more."
      >
        <div class="harvest-rows">
          <SeasonMonths axis={axis} />
          {sources.map((source) => (
            <SourceRow key={source.sourceId} {...source} />
          ))}
        </div>
      </Part>
    )}
    <GroundPart {...ground} />
  </Page>
);
