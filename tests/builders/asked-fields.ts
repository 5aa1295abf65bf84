import { type DefaultTreeAdapterTypes, parse } from 'parse5';

type Element = DefaultTreeAdapterTypes.Element;
type Node = DefaultTreeAdapterTypes.Node;

/** A field that a person fills in, with the label printed beside it. */
export interface AskedField {
  readonly name: string;
  readonly label: string;
  readonly kind: 'number' | 'date' | 'minute' | 'text' | 'secret' | 'choice';
  /** What may be chosen, the values sent. */
  readonly options: readonly string[];
  /** What is wrong with it, as it stands beside it; empty when nothing is. */
  readonly problem: string;
}

/** A form of a page: where it is sent, what it sends untouched, and what a person fills in. */
export interface AskedForm {
  readonly method: 'get' | 'post';
  readonly action: string;
  readonly values: readonly (readonly [name: string, value: string])[];
  readonly fields: readonly AskedField[];
  /** Its buttons that say something. */
  readonly buttons: readonly (readonly [name: string, value: string])[];
  /** What is said of the form as a whole. */
  readonly problem: string;
}

const attr = (element: Element, name: string): string | null =>
  element.attrs.find((one) => one.name === name)?.value ?? null;

const childrenOf = (node: Node): readonly Node[] => ('childNodes' in node ? node.childNodes : []);

function* elementsIn(node: Node): Generator<Element> {
  if ('tagName' in node) yield node;
  for (const child of childrenOf(node)) yield* elementsIn(child);
}

const textIn = (node: Node): string =>
  (node.nodeName === '#text'
    ? (node as DefaultTreeAdapterTypes.TextNode).value
    : childrenOf(node).map(textIn).join(' ')
  )
    .replace(/\s+/g, ' ')
    .trim();

const above = (element: Element, tag: string): Element | null => {
  for (let at: Node | null = element.parentNode; at !== null && 'parentNode' in at; at = at.parentNode)
    if ('tagName' in at && at.tagName === tag) return at;
  return null;
};

const kindOf = (element: Element): AskedField['kind'] | null => {
  if (element.tagName === 'select') return 'choice';
  if (element.tagName === 'textarea') return 'text';
  const type = attr(element, 'type') ?? 'text';
  if (type === 'radio') return 'choice';
  if (type === 'date') return 'date';
  if (type === 'datetime-local') return 'minute';
  if (type === 'password') return 'secret';
  if (!['text', 'email'].includes(type)) return null;
  return /decimal|numeric/.test(attr(element, 'inputmode') ?? '') ? 'number' : 'text';
};

/** Every form of a page that changes or asks something, as somebody reads it. */
export function askedForms(html: string): readonly AskedForm[] {
  const all = [...elementsIn(parse(html))];
  const byId = new Map(all.flatMap((one) => (attr(one, 'id') === null ? [] : [[attr(one, 'id'), one]])));
  const labelOf = (element: Element): string => {
    const id = attr(element, 'id');
    const named = attr(element, 'aria-label');
    if (named !== null) return named;
    const legend = attr(element, 'type') === 'radio' ? above(element, 'fieldset') : null;
    const own =
      legend === null
        ? (all.find((one) => one.tagName === 'label' && id !== null && attr(one, 'for') === id) ??
          above(element, 'label'))
        : ([...elementsIn(legend)].find(({ tagName }) => tagName === 'legend') ?? null);
    return own === null ? '' : textIn(own);
  };
  const problemOf = (element: Element): string => {
    const said =
      attr(element, 'aria-describedby') ??
      attr(above(element, 'fieldset') ?? element, 'aria-describedby') ??
      '';
    return said
      .split(' ')
      .flatMap((id) => {
        const beside = byId.get(id);
        return beside !== undefined && /problem/.test(attr(beside, 'class') ?? '') ? [textIn(beside)] : [];
      })
      .join(' ');
  };
  return all
    .filter(({ tagName }) => tagName === 'form')
    .filter((form) => attr(form, 'enctype') === null)
    .map((form): AskedForm => {
      const inputs = [...elementsIn(form)].filter(
        ({ tagName, attrs }) =>
          ['input', 'select', 'textarea'].includes(tagName) && attrs.some(({ name }) => name === 'name'),
      );
      const fields = new Map<string, AskedField>();
      const values: (readonly [string, string])[] = [];
      for (const input of inputs) {
        const name = attr(input, 'name') ?? '';
        const kind = kindOf(input);
        const isChoice = ['radio', 'checkbox'].includes(attr(input, 'type') ?? '');
        const options = [...elementsIn(input)].filter(({ tagName }) => tagName === 'option');
        if (kind !== null)
          fields.set(name, {
            name,
            label: labelOf(input),
            kind,
            options: [
              ...(fields.get(name)?.options ?? []),
              ...(isChoice ? [input] : options).map((one) => attr(one, 'value') ?? ''),
            ],
            problem: problemOf(input),
          });
        const chosen = options.find((option) => attr(option, 'selected') !== null) ?? options[0];
        if (chosen !== undefined) values.push([name, attr(chosen, 'value') ?? '']);
        else if (!isChoice || attr(input, 'checked') !== null)
          values.push([name, attr(input, 'value') ?? '']);
      }
      const alert = [...elementsIn(form)].find((one) => attr(one, 'role') === 'alert');
      return {
        method: attr(form, 'method') === 'post' ? 'post' : 'get',
        buttons: [...elementsIn(form)]
          .filter((one) => one.tagName === 'button' && attr(one, 'name') !== null)
          .map((one) => [attr(one, 'name') ?? '', attr(one, 'value') ?? '']),
        action: attr(form, 'action') ?? '',
        values,
        fields: [...fields.values()],
        problem: alert === undefined ? '' : textIn(alert),
      };
    });
}
