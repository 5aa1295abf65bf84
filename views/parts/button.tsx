import type { ComponentChildren } from 'preact';

interface ButtonProps {
  /** `main` for the one thing a form is for, `quiet` for the rest. */
  readonly weight?: 'main' | 'plain' | 'quiet';
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
