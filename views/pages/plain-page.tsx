import type { Frame } from '../layout/frame.ts';
import { Page } from '../layout/page.tsx';

export interface PlainWords {
  readonly title: string;
  readonly text: string;
  readonly action: { readonly words: string; readonly href: string } | null;
}

/** One thing said plainly: what happened and what to do. */
export const PlainPage = ({ frame, title, text, action }: PlainWords & { readonly frame: Frame }) => (
  <Page frame={frame} title={title} section="none" about={text}>
    <h1 class="page-title">{title}</h1>
    <p class="page-line">{text}</p>
    {action === null ? null : (
      <p>
        <a class="button button-main" href={action.href}>
          {action.words}
        </a>
      </p>
    )}
  </Page>
);
