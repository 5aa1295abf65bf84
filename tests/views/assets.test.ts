import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { families } from '../../shared/family.ts';

const folder = resolve(import.meta.dirname, '../../views/assets');
const tokens = readFileSync(join(folder, 'tokens.css'), 'utf8');

type Theme = Readonly<Record<string, string>>;

const coloursIn = (css: string): Theme =>
  Object.fromEntries(
    [...css.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map((found) => [found[1] ?? '', found[2] ?? '']),
  );

const [lightCss = '', darkCss = ''] = tokens.split('@media (prefers-color-scheme: dark)');
const themes: Readonly<Record<string, Theme>> = { light: coloursIn(lightCss), dark: coloursIn(darkCss) };

// Relative luminance and contrast ratio as defined in WCAG 2.2.
const channel = (value: number): number =>
  value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
const luminance = (hex: string): number => {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) =>
    channel(Number.parseInt(hex.slice(at, at + 2), 16) / 255),
  );
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
};
const contrast = (one: string, other: string): number => {
  const [lighter = 0, darker = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (lighter + 0.05) / (darker + 0.05);
};

describe.each(Object.entries(themes))('%s enamel', (_name, theme) => {
  // Success criterion 1.4.3: text against its ground, at least 4.5 to 1.
  test.each([
    ['ink', 'enamel'],
    ['ink', 'enamel-worn'],
    ['ink', 'cobalt-wash'],
    ['ink-thin', 'enamel'],
    ['ink-thin', 'enamel-worn'],
    ['ink-thin', 'cobalt-wash'],
    ['cobalt', 'enamel'],
    ['cobalt', 'cobalt-wash'],
    ['cobalt-deep', 'cobalt-wash'],
    ['on-cobalt', 'cobalt'],
    ['on-cobalt', 'cobalt-deep'],
  ])('%s reads on %s', (text, ground) => {
    expect(contrast(theme[text] ?? '', theme[ground] ?? '')).toBeGreaterThanOrEqual(4.5);
  });

  // Success criterion 1.4.11: what has to be seen to understand a drawing or a field, at least 3 to 1.
  test.each([...families, 'outline'])('%s is seen on the enamel', (name) => {
    expect(contrast(theme[name] ?? '', theme.enamel ?? '')).toBeGreaterThanOrEqual(3);
  });
});

test('no style sheet names a colour outside of the tokens, or loads anything from elsewhere', () => {
  const offenders = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.css') && path !== 'tokens.css' && path !== 'print.css')
    .filter((path) =>
      /#[0-9a-f]{3,8}\b|rgba?\(|hsla?\(|url\(|@import/i.test(readFileSync(join(folder, path), 'utf8')),
    );

  expect(offenders).toEqual([]);
});

test('every style sheet stands in a declared layer', () => {
  const layers = new Set(/@layer ([^;]+);/.exec(tokens)?.[1]?.split(', '));
  const outside = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.css'))
    .filter((path) => {
      const used = [...readFileSync(join(folder, path), 'utf8').matchAll(/@layer ([a-z]+) \{/g)].map(
        (found) => found[1] ?? '',
      );
      return used.length === 0 || used.some((layer) => !layers.has(layer));
    });

  expect(outside).toEqual([]);
});
