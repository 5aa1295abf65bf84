import type { ComponentChildren } from 'preact';

interface PhoneFoldProps {
  /** What is folded, with its count: `5 things, $31.40`. */
  readonly words: string;
  /** Set where what was said or refused in it has to be seen. */
  readonly open?: boolean;
  readonly children: ComponentChildren;
}

/** What can wait on a phone is one row there, a tap away; on a wide screen and on paper it stands as if there were no fold. */
export const PhoneFold = ({ words, open = false, children }: PhoneFoldProps) => (
  <details class="phone-fold" open={open}>
    <summary>{words}</summary>
    {children}
  </details>
);
