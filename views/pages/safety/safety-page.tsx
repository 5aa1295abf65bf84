import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { ButtonLink } from '../../parts/button.tsx';
import { Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';
import { type CautionLine, Cautions } from '../canning-day/process-card.tsx';

export interface SafetyPageProps {
  readonly frame: Frame;
  /** "2 batches are set aside now."; empty where none is. */
  readonly setAside: string;
  readonly cautions: readonly CautionLine[];
}

/** Whatever may be wrong with a jar, a batch, the canner or the power: what to do first, one touch from here. */
export const SafetyPage = ({ frame, setAside, cautions }: SafetyPageProps) => (
  <Page
    frame={frame}
    title={pageNames.safety}
    section="safety"
    about="What to do when something may be wrong with a jar, a batch, a canner or the power."
  >
    <h1 class="page-title">{pageNames.safety}</h1>
    <p class="page-line">Something wrong with a jar, or not sure? Don’t taste it. Start here.</p>
    <Part
      title="A jar is swollen, leaking or unsealed"
      id="unsealed"
      line="How to handle it, how to throw it away safely, and which batch to look at."
    >
      <p class="page-actions">
        <ButtonLink href="/found-unsealed">Found a jar unsealed</ButtonLink>
      </p>
    </Part>
    <Part
      title="You doubt a batch or a canner"
      id="doubt"
      line={`Nobody takes from what is set aside until you decide.${setAside === '' ? '' : ` ${setAside}`}`}
    >
      <p class="page-actions">
        <ButtonLink href="/set-aside">Set batches aside</ButtonLink>
      </p>
    </Part>
    <Part
      title="The power was out"
      id="power"
      line="What to keep, refreeze, cook or throw away from the refrigerator and the freezer."
    >
      <p class="page-actions">
        <ButtonLink href="/power-cut">After a power outage</ButtonLink>
      </p>
    </Part>
    <Part
      title="How long does it process?"
      id="times"
      line="One published row for a food, jar, canner and altitude, or why there is none."
    >
      <p class="page-actions">
        <ButtonLink href="/process-times">Look up a processing time</ButtonLink>
      </p>
    </Part>
    <Part title="Before you can" id="cautions">
      <Cautions cautions={cautions} />
    </Part>
  </Page>
);
