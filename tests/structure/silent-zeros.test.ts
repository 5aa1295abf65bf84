import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const planning = resolve(import.meta.dirname, '../../src/planning');

/** What an entry that is missing must not become unnoticed: nought, a column before the first, an object of nothing. */
const silently = /(\?\?=?|\|\|=?)\s*\(?(-?[01](\.0*)?|\{\})(?![\w.:])/;

const silentLines = (name: string, text: string): string[] =>
  text
    .split('\n')
    .flatMap((line, at) =>
      silently.test(line.replace(/\/\/.*$/, '')) ? [`${name}:${at + 1} ${line.trim()}`] : [],
    );

describe('the planner', () => {
  it('takes nothing that is missing for nought: only lookup.ts says where absence means none', () => {
    const files = readdirSync(planning, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.ts'),
    );

    const silent = files.flatMap((name) => silentLines(name, readFileSync(join(planning, name), 'utf8')));

    expect(files.length).toBeGreaterThan(60);
    expect(silent.map((line) => line.split(':')[0])).toEqual(['lookup.ts']);
  });

  it.each([
    'uses[week] ?? 0',
    'at ?? -1',
    'recipes[at] ?? {}',
    'uses[week] || 0',
    'left ??= 0',
    '(share ?? 1) * 2',
  ])('would be caught with “%s”', (line) => {
    expect(silentLines('any.ts', `const amount = ${line};`)).toHaveLength(1);
  });

  it.each(['earlier ?? null', 'lists[at] ?? []', 'units ?? 12', 'no more ?? 0.5'])('may say “%s”', (line) => {
    expect(silentLines('any.ts', line)).toEqual([]);
  });
});
