import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { run as processTime } from '../../../server/commands/process-time.ts';
import { run as verifyTable } from '../../../server/commands/verify-table.ts';
import { everyCaution } from '../../../src/preserving/sheet/cautions.ts';

const shipped = fileURLToPath(new URL('../../../seed-data/reference/process-times.csv', import.meta.url));

let said = '';
let complained = '';
let folder = '';

beforeEach(() => {
  said = '';
  complained = '';
  folder = mkdtempSync(join(tmpdir(), 'verify-'));
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    said += String(text);
    return true;
  });
  vi.spyOn(console, 'error').mockImplementation((text) => {
    complained += `${String(text)}\n`;
  });
});

afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true });
});

const applesauce = ['--food', 'applesauce', '--pack', 'hot', '--jar', 'quart', '--method', 'boiling-water'];
const lastLine = (): string | undefined => said.trimEnd().split('\n').at(-1);

describe('process-time', () => {
  // USDA Complete Guide 2, p2-8.
  test('prints one schedule, large, with altitude band and source', async () => {
    expect(await processTime([...applesauce, '--altitude-ft', '1000.7'])).toBe(0);

    expect(said).toContain('25 MINUTES, boiling-water canner');
    expect(said).toContain('1,001 to 3,000 ft');
    expect(said).toContain('Source: USDA-G2');
  });

  test('answers in metres, and as one JSON object', async () => {
    expect(await processTime([...applesauce, '--altitude-m', '304.8', '--json'])).toBe(0);

    expect(JSON.parse(said)).toMatchObject({
      ok: true,
      minutes: 20,
      psi: null,
      schedule: { bandToFt: 1000 },
    });
  });

  test('carries the cautions on every answer', async () => {
    await processTime([...applesauce, '--altitude-ft', '0', '--json']);

    const codes = JSON.parse(said).schedule.cautions.map(({ code }: { code: string }) => code);
    for (const code of [
      'official-guide-first',
      'altitude',
      'botulism-signs',
      'do-not-taste',
      'gauge-check',
    ]) {
      expect(codes).toContain(code);
    }
  });

  test.each([
    [
      ['--food', 'beans-snap', '--pack', 'hot', '--jar', 'pint', '--method', 'boiling-water'],
      'low-acid-needs-pressure',
    ],
    [
      ['--food', 'pumpkin-butter', '--pack', 'hot', '--jar', 'pint', '--method', 'boiling-water'],
      'food-untested',
    ],
    [['--food', 'applesauce', '--pack', 'hot', '--jar', 'pint', '--method', 'oven'], 'method-oven'],
  ])('refuses with the rule, its source and what is possible instead: %s', async (args, code) => {
    expect(await processTime([...args, '--altitude-ft', '500', '--json'])).toBe(1);

    expect(JSON.parse(said)).toMatchObject({ ok: false, problems: [{ code }] });
    expect(JSON.parse(said).problems[0].instead).toBeTruthy();
  });

  // USDA Complete Guide 1, p1-20: a dial gauge is checked every year.
  test.each([
    [[], 1],
    [['--gauge-checked', 'never'], 1],
    [['--gauge-checked', '2025-08-21', '--on', '2026-08-22'], 1],
    [['--gauge-checked', '2025-08-22', '--on', '2026-08-22'], 0],
  ])('a dial gauge needs its check within 365 days: %o gives exit code %d', async (checked, code) => {
    const jar = ['--food', 'beans-snap', '--pack', 'hot', '--jar', 'pint', '--altitude-ft', '500'];

    expect(await processTime([...jar, '--method', 'pressure', '--gauge', 'dial', ...checked])).toBe(code);

    if (code === 0) expect(said).toContain('20 MINUTES at 11 PSI');
    else {
      expect(said).toContain('A dial gauge must be checked');
      expect(said).toContain('--gauge-checked DATE');
      expect(said).not.toContain('MINUTES');
    }
  });

  // USDA Complete Guide 3, p3-6: tomato juice under a weighted gauge, 0 to 1,000 ft, three schedules for one jar.
  test('asks which of several printed schedules it is, and answers with exactly one', async () => {
    const jar = ['--food', 'tomato-juice', '--pack', 'hot', '--jar', 'pint', '--altitude-ft', '800'];
    const juice = [...jar, '--method', 'pressure', '--gauge', 'weighted'];

    expect(await processTime(juice)).toBe(3);
    const asked = said;
    said = '';
    expect(await processTime([...juice, '--json'])).toBe(3);
    const listed = JSON.parse(said);
    said = '';
    expect(await processTime([...juice, '--psi', '10'])).toBe(0);

    expect(asked).toContain('--minutes 15 --psi 10');
    expect(asked).not.toContain('MINUTES');
    expect(listed).toMatchObject({
      ok: false,
      minutes: null,
      psi: null,
      schedule: null,
      choices: [
        { minutes: 20, psi: 5 },
        { minutes: 15, psi: 10 },
        { minutes: 10, psi: 15 },
      ],
    });
    expect(said.match(/MINUTES/g)).toHaveLength(1);
    expect(said).toContain('15 MINUTES at 10 PSI');
  });

  test.each([
    [
      'a choice still to be made',
      ['--food', 'tomato-juice', '--pack', 'hot', '--method', 'pressure-weighted'],
    ],
    ['a refusal', ['--food', 'pumpkin-butter', '--pack', 'hot', '--method', 'boiling-water']],
  ])('carries every caution on %s too', async (_, args) => {
    await processTime([...args, '--jar', 'pint', '--altitude-ft', '0']);

    for (const { text } of everyCaution) expect(said).toContain(text);
  });

  test.each([
    [[...applesauce], '--altitude-ft or --altitude-m'],
    [
      [...applesauce, '--altitude-ft', 'high'],
      '“high” is no height. Write how high the kitchen lies, in feet or meters',
    ],
    [[...applesauce, '--jar', 'bucket', '--altitude-ft', '0'], 'choose quarter-pint'],
    [[...applesauce, '--colour', 'red'], "Unknown option '--colour'"],
    [[...applesauce, '--method', 'cauldron', '--altitude-ft', '0'], 'cannot be “cauldron”'],
  ])('says what it did not understand: %s', async (args, message) => {
    expect(await processTime(args)).toBe(2);

    expect(complained).toContain(message);
  });
});

describe('verify-table', () => {
  const verify = async (text: string): Promise<number> => {
    const file = join(folder, 'table.csv');
    writeFileSync(file, text);
    return verifyTable(['process-times', file]);
  };
  const table = readFileSync(shipped, 'utf8');

  test('passes every shipped row, the remembered ones because they are refused', async () => {
    expect(await verifyTable(['process-times', shipped])).toBe(0);

    expect(lastLine()).toBe('1688 passed, 0 failed');
  });

  test('fails rows whose bands overlap', async () => {
    const row = 'sauce,acid,boiling-water,hot,quart,0.5,0,';

    expect(await verify(table.replace(`${row}1000,20`, `${row}2000,20`))).toBe(1);

    expect(lastLine()).toBe('1686 passed, 2 failed');
  });

  test('fails a low-acid row given as boiling water', async () => {
    const row = 'low-acid,pressure-dial,hot,pint,1,0,2000,30,11';

    expect(await verify(table.replace(row, 'low-acid,boiling-water,hot,pint,1,0,2000,30,'))).toBe(1);

    expect(lastLine()).toBe('1687 passed, 1 failed');
  });

  test('counts a row that breaks the format as failed and names its line', async () => {
    expect(await verify(table.replace('0.5,0,1000,20,', '0.5,0,1000,soon,'))).toBe(1);

    expect(said).toMatch(/line \d+, minutes: Expected a plain number such as 0.25 or 1001; found "soon"/);
    expect(lastLine()).toMatch(/^1687 passed, 1 failed$/);
  });

  test('a file that is no such table, or is not there, is said plainly', async () => {
    expect(await verify('a,b\n1,2\n')).toBe(2);
    expect(complained).toContain('lacks the columns');
    expect(await verifyTable(['process-times', join(folder, 'nowhere.csv')])).toBe(2);
    expect(complained).toContain('could not be read');
    expect(await verifyTable([])).toBe(2);
  });
});
