import { type ComponentType, h, type VNode } from 'preact';
import { jsxTemplate } from 'preact/jsx-runtime';
import { renderToString } from 'preact-render-to-string';
import { whileTheSame } from '../../shared/remembering.ts';

/**
 * A part that is drawn again only when one of its props is another object or value: its markup is kept with the prop `by`, and goes with it.
 * For what holds no form and asks nothing of the page around it.
 */
export function drawnOnce<By extends string, Props extends Readonly<Record<By, object>>>(
  by: By,
  Part: (props: Props) => VNode | null,
): (props: Props) => VNode {
  const drawn = whileTheSame(by, (props: Props) => renderToString(h(Part as ComponentType<Props>, props)));
  return (props) => jsxTemplate([drawn(props)]);
}
