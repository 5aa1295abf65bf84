import type { ComponentChildren } from 'preact';

/**
 * What an action weighs; the same rank looks the same on every page:
 *
 * | weight | for | looks |
 * |---|---|---|
 * | `main` | the one thing a form or page is for: saves what was typed, adds, looks up, begins | filled with cobalt |
 * | `plain` | one of several ways to go on, one row's act, a way to another page | outlined |
 * | `quiet` | takes back, leaves off, puts off: undo, remove, later | underlined words |
 * | `grave` | ends something for everybody, after a passphrase | outlined in ink |
 */
type Weight = 'main' | 'plain' | 'quiet' | 'grave';

interface ButtonProps {
  readonly weight?: Weight;
  /** Fills the width on a phone and stands tall: the one big thing on a screen. */
  readonly big?: boolean;
  readonly name?: string;
  readonly value?: string;
  /** Words for those who hear the page, when the button's own would be one of many alike. */
  readonly label?: string;
  readonly children: ComponentChildren;
}

export const Button = ({ weight = 'plain', big = false, name, value, label, children }: ButtonProps) => (
  <button
    type="submit"
    class={`button button-${weight}${big ? ' button-big' : ''}`}
    name={name}
    value={value}
    aria-label={label}
  >
    {children}
  </button>
);

/** A link that reads as an action of the same weight as a button. */
export const ButtonLink = ({
  href,
  weight = 'plain',
  children,
}: { href: string } & Pick<ButtonProps, 'weight' | 'children'>) => (
  <a class={`button button-${weight}`} href={href}>
    {children}
  </a>
);
