import type { Family } from '../../../shared/family.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { ButtonLink } from '../../parts/button.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { GroundPart, type GroundProps } from './ground-part.tsx';
import { SourceCard, type SourceCardProps } from './source-card.tsx';

export interface HarvestPageProps {
  readonly frame: Frame;
  /** "Open now: peaches, green beans. Next: tomatoes on Jul 20." */
  readonly line: string;
  readonly ground: GroundProps;
  readonly families: readonly HarvestFamily[];
}

export interface HarvestFamily {
  readonly id: string;
  readonly name: string;
  /** Its hue; null for what no recipe uses yet. */
  readonly family: Family | null;
  readonly sources: readonly SourceCardProps[];
}

/** Where the crops come from, and when. */
export const HarvestPage = ({ frame, line, ground, families }: HarvestPageProps) => (
  <Page
    frame={frame}
    title="Harvest"
    section="harvest"
    about="Where the crops come from, when, and how much."
    wide
  >
    <h1 class="page-title">Harvest</h1>
    <p class="page-line">{line}</p>
    <p class="page-actions">
      <ButtonLink href="/harvest/new">Add a source</ButtonLink>
      <ButtonLink href="/glut">Too much at once?</ButtonLink>
      <ButtonLink href="/stages">Before the canner</ButtonLink>
    </p>
    <GroundPart {...ground} />
    {families.length === 0 ? (
      <EmptyState
        text="No source has been written down, so nothing can be planned from a harvest."
        action={{ words: 'Add the first source', href: '/harvest/new' }}
      />
    ) : null}
    {families.map((family) => (
      <Part key={family.id} id={`harvest-${family.id}`} title={family.name}>
        <div class={family.family === null ? 'source-cards' : `source-cards family-${family.family}`}>
          {family.sources.map((source) => (
            <SourceCard key={source.sourceId} {...source} />
          ))}
        </div>
      </Part>
    ))}
  </Page>
);
