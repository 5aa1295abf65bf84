import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { getPriority } from 'node:os';
import { resolve } from 'node:path';
import { expect, test } from 'vitest';

const module = resolve(import.meta.dirname, '../../../server/child-processes/behind-the-pages.ts');
const own = getPriority();
const shares = '/proc/self/autogroup';

/** Where a process stands that puts itself back, and its session. */
function standing(steps: number, detached: boolean): { readonly step: number; readonly session: string } {
  const script = `
    import { existsSync, readFileSync } from 'node:fs';
    import { getPriority } from 'node:os';
    import { putBehindThePages } from ${JSON.stringify(module)};
    putBehindThePages(process.pid, ${steps});
    const session = existsSync('${shares}') ? readFileSync('${shares}', 'utf8').replace(/^.* nice /s, '').trim() : '';
    console.log(JSON.stringify({ step: getPriority(), session }));`;
  const args = ['--import', 'tsx', '--input-type=module', '--eval', script];
  const { stdout, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8', detached } as object);
  expect(stderr).toBe('');
  return JSON.parse(String(stdout)) as { readonly step: number; readonly session: string };
}

test('a process stands so many steps back, and never further than the last', () => {
  expect(standing(0, false).step).toBe(own);
  expect(standing(5, false).step).toBe(Math.min(19, own + 5));
  expect(standing(19, false).step).toBe(19);
});

test.runIf(existsSync(shares))(
  'as a session of its own it steps back as a whole, and takes no others with it',
  () => {
    expect(standing(7, true).session).toBe(String(Math.min(19, own + 7)));
    const before = standing(0, false).session;
    expect(standing(7, false).session).toBe(before);
  },
);
