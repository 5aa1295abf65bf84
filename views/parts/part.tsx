import type { ComponentChildren } from 'preact';
import type { Message } from '../layout/frame.ts';
import { elementId } from '../words/element-id.ts';
import { Banner } from './banner.tsx';
import { PhoneFold } from './phone-fold.tsx';

interface PartProps {
  readonly title: string;
  /** Id of the section: what a link jumps to and a form replaces. Made from the title when not given. */
  readonly id?: string;
  /** A line under the title, quiet. */
  readonly line?: ComponentChildren;
  readonly class?: string;
  /** What was just done here, said where it was done. */
  readonly said?: Message | undefined;
  /** On a phone the part is this one row until it is wanted, or something in it was said or refused. */
  readonly folded?: { readonly words: string; readonly open?: boolean };
  readonly children: ComponentChildren;
}

/** One part of a page under its own heading, set off by the rim. */
export const Part = ({ title, id, line, said, folded, children, ...rest }: PartProps) => {
  const name = id ?? elementId(title);
  return (
    <section
      id={name}
      class={rest.class === undefined ? 'part' : `part ${rest.class}`}
      aria-labelledby={`${name}-title`}
    >
      <div class="part-head">
        <h2 id={`${name}-title`}>{title}</h2>
        {line === undefined ? null : <p class="part-line">{line}</p>}
      </div>
      <div class="part-body">
        {said === undefined ? null : <Banner message={said} />}
        {folded === undefined ? (
          children
        ) : (
          <PhoneFold words={folded.words} open={folded.open === true || said !== undefined}>
            {children}
          </PhoneFold>
        )}
      </div>
    </section>
  );
};

/** A part that is one line until it is wanted: its heading opens it, and a link to its id does too. */
export const FoldedPart = ({
  title,
  id,
  line,
  open = false,
  children,
}: Pick<PartProps, 'title' | 'line' | 'children'> & { readonly id: string; readonly open?: boolean }) => (
  <details class="folded-part" open={open}>
    <summary>
      <h2>{title}</h2>
      {line === undefined ? null : <span class="quiet">{line}</span>}
    </summary>
    <div id={id} class="folded-body">
      {children}
    </div>
  </details>
);

/** What a page says where there is nothing to show yet: why, and the one thing to do. */
export const EmptyState = ({ text, action }: { text: string; action?: { words: string; href: string } }) => (
  <p class="empty-state">
    {text}
    {action === undefined ? null : (
      <>
        {' '}
        <a href={action.href}>{action.words}</a>
      </>
    )}
  </p>
);
