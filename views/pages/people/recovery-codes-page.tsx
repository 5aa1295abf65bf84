import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { ButtonLink } from '../../parts/button.tsx';

export interface RecoveryCodesPageProps {
  readonly frame: Frame;
  readonly codes: readonly string[];
}

/** Shown once, when a second factor begins to count. */
export const RecoveryCodesPage = ({ frame, codes }: RecoveryCodesPageProps) => (
  <Page frame={frame} title="Recovery codes" section="kitchen" about="For when the authenticator is lost.">
    <h1 class="page-title">Recovery codes</h1>
    <p class="page-line">
      A code is asked for from now on. Should the authenticator be lost, each of these works once in its
      place. Print them or write them down now; they are not shown again.
    </p>
    <ol>
      {codes.map((code) => (
        <li key={code}>
          <code>{code}</code>
        </li>
      ))}
    </ol>
    <p>
      <ButtonLink href="/people/self" weight="main">
        I have them
      </ButtonLink>
    </p>
  </Page>
);
