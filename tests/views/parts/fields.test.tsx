import { renderToString } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import type { FormValues } from '../../../shared/schemas/form-fields.ts';
import { dateField, numberField, textField, tickField } from '../../../shared/schemas/form-fields.ts';
import { idField } from '../../../shared/schemas/id-fields.ts';
import {
  CheckField,
  type FormFields,
  InputField,
  RadioField,
  SelectField,
} from '../../../views/parts/fields.tsx';

// A field is named; what stands in it and what is wrong with it come from its form. The lines marked as errors are refused by the
// compiler: were one taken, the marks themselves would be errors, and `tsc` would fail.

const jarForm = z
  .object({
    jarId: idField('Jar', z.string()),
    name: textField('Name'),
    jars: numberField({ label: 'Jars', from: 1, to: 9 }),
    on: dateField('Day'),
    sealed: tickField(),
  })
  .refine(({ jars }) => jars < 9)
  .transform((jar) => ({ ...jar, on: null }));

type JarValues = FormValues<typeof jarForm, 'jarId', 'jarsUnit'>;

const form: FormFields<JarValues> = {
  formId: 'jar',
  values: { name: '<Quince>', jars: '3', on: '', sealed: true, jarsUnit: 'pint' },
  problems: { jars: 'Write fewer.', sealed: 'Look at the lid.' },
};

describe('a field', () => {
  test('shows what its form has for it, as it was typed', () => {
    const html = renderToString(<InputField form={form} name="name" label="Name" />);

    expect(html).toContain('id="jar-name"');
    expect(html).toContain('value="&lt;Quince>"');
    expect(html).not.toContain('aria-invalid');
  });

  test.each([
    ['typed', <InputField key="1" form={form} name="jars" label="Jars" />, 'aria-invalid="true"'],
    [
      'chosen',
      <SelectField key="2" form={form} name="jars" label="Jars" choices={[]} />,
      'aria-invalid="true"',
    ],
    [
      'one of a few',
      <RadioField key="3" form={form} name="jars" label="Jars" choices={[]} />,
      'field-with-problem',
    ],
  ])('that is %s says what is wrong with it, and is described by it', (_how, element, sign) => {
    const html = renderToString(element);

    expect(html).toContain('aria-describedby="jar-jars-problem"');
    expect(html).toContain('<p class="problem" id="jar-jars-problem">Write fewer.</p>');
    expect(html).toContain(sign);
  });

  test('that is ticked stands ticked, with what is wrong with it', () => {
    const html = renderToString(<CheckField form={form} name="sealed" label="Sealed" />);

    expect(html).toContain(' checked');
    expect(html).toContain('Look at the lid.');
  });

  test.each([
    <InputField key="1" form={form} name="name" label="Passphrase" type="password" />,
    <InputField key="2" form={form} name="name" label="Code" autocomplete="one-time-code" />,
    <InputField key="3" form={form} name="name" label="Link" secret />,
  ])('that is secret shows nothing of what was typed', (element) => {
    expect(renderToString(element)).not.toContain('Quince');
  });

  test('of a unit or a day in front of the schema is a field of the form too', () => {
    const html = renderToString(
      <SelectField form={form} name="jarsUnit" label="In" choices={[{ value: 'pint', words: 'pints' }]} />,
    );

    expect(html).toContain('<option value="pint" selected>');
  });

  test('whose name is made of an id is refused when it is drawn, where the form does not have it', () => {
    const counts: FormFields<Readonly<Record<string, string>>> = { ...form, values: { 'lot-1': '3' } };

    expect(renderToString(<InputField form={counts} name="lot-1" label="First" />)).toContain('value="3"');
    expect(() => renderToString(<InputField form={counts} name="lot-2" label="Second" />)).toThrow(
      'the form jar has no field lot-2',
    );
  });

  test('is refused where the form does not have it, or has it otherwise', () => {
    const refused = () => [
      // @ts-expect-error the schema has no such field
      <InputField key="1" form={form} name="jasr" label="Jars" />,
      // @ts-expect-error nobody types it
      <InputField key="2" form={form} name="jarId" label="Jar" />,
      // @ts-expect-error it is ticked, not typed
      <InputField key="3" form={form} name="sealed" label="Sealed" />,
      // @ts-expect-error it is typed, not ticked
      <CheckField key="4" form={form} name="name" label="Name" />,
      // @ts-expect-error its value is the form's
      <InputField key="5" form={form} name="name" label="Name" value="Plum" />,
      // @ts-expect-error its problem is the form's
      <InputField key="6" form={form} name="name" label="Name" problem="Too long." />,
      // @ts-expect-error whether it is ticked is the form's
      <CheckField key="7" form={form} name="sealed" label="Sealed" checked />,
    ];

    expect(refused).toBeTypeOf('function');
  });
});
