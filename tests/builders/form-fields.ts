import { attribute } from './html-text.ts';

/** A form as it stands in a page: where it is sent and what may be put into it. */
export interface PageForm {
  readonly action: string;
  readonly sendsFile: boolean;
  readonly fields: readonly FormField[];
}

export interface FormField {
  readonly name: string;
  /** `text` is whatever a person types, `choice` one of the values, `fixed` what the page put there. */
  readonly kind: 'text' | 'choice' | 'tick' | 'fixed';
  /** What stands there, or may be chosen; the present value first. */
  readonly values: readonly string[];
}

/** Every form of a page that changes something. */
export function postFormsOf(html: string): readonly PageForm[] {
  const forms = html.match(/<form\b[\s\S]*?<\/form>/g) ?? [];
  return forms.flatMap((form): PageForm[] => {
    const [head = ''] = /<form\b[^>]*>/.exec(form) ?? [];
    if (attribute(head, 'method') !== 'post') return [];
    const byName = new Map<string, FormField>();
    const add = (field: FormField): void => {
      const before = byName.get(field.name);
      byName.set(field.name, before ? { ...field, values: [...before.values, ...field.values] } : field);
    };
    for (const tag of form.match(/<(?:input|textarea)\b[^>]*>/g) ?? []) {
      const name = attribute(tag, 'name');
      const type = attribute(tag, 'type') ?? 'text';
      if (name === null || name === '_csrf' || name === 'key' || type === 'file') continue;
      const kind = { radio: 'choice', checkbox: 'tick', hidden: 'fixed' }[type] ?? 'text';
      add({ name, kind: kind as FormField['kind'], values: [attribute(tag, 'value') ?? ''] });
    }
    for (const list of form.match(/<select\b[\s\S]*?<\/select>/g) ?? []) {
      const options = list.match(/<option\b[^>]*>/g) ?? [];
      const values = options.map((option) => attribute(option, 'value') ?? '');
      add({ name: attribute(list, 'name') ?? '', kind: 'choice', values });
    }
    for (const tag of form.match(/<button\b[^>]*>/g) ?? []) {
      const name = attribute(tag, 'name');
      if (name !== null) add({ name, kind: 'choice', values: [attribute(tag, 'value') ?? ''] });
    }
    return [
      {
        action: attribute(head, 'action') ?? '',
        sendsFile: attribute(head, 'enctype') === 'multipart/form-data',
        fields: [...byName.values()],
      },
    ];
  });
}
