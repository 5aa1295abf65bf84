import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { killedActs, killInTheMiddle } from '../../bench/kill-acts-protocol.ts';

const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// The small form of `npm run bench:kill`, which kills each a hundred times.
test.each(killedActs)(
  '%s, killed at any moment, is wholly done or not at all, and done when it said so',
  async (act) => {
    const report = await killInTheMiddle(act, { folder: join(folder, act), kills: 2, seed: 11 });

    expect(report.amiss).toEqual([]);
    expect(report.kills).toBe(2);
    expect(report.acknowledged).toBeGreaterThan(0);
  },
);
