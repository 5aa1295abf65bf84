import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { openDisk } from '../../bench/power-cut/disk.ts';
import { compileDiskLog, type DiskEntry } from '../../bench/power-cut/disk-log.ts';
import { cutThePower, type Recorded, recordAct } from '../../bench/power-cut-protocol.ts';

const folder = mkdtempSync(join(tmpdir(), 'pantry-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const shim = compileDiskLog(folder);

/** The disk as it is just before the first entry that fits; after all of them where none does. */
function diskBefore({ root, before, entries }: Recorded, fits: (entry: DiskEntry) => boolean) {
  const disk = openDisk(root, before);
  const at = entries.findIndex(fits);
  for (const entry of at === -1 ? entries : entries.slice(0, at)) disk.apply(entry);
  return { at, disk };
}

// The small form of `npm run bench:power-cut`. What is asked of the disk is seen by a part in C: without a compiler it is not.
describe.skipIf(shim === null)('when the power is cut', () => {
  const cut = (act: Parameters<typeof cutThePower>[0], cuts: number, unsynced = false) =>
    cutThePower(act, {
      folder: join(folder, `${act}${unsynced ? ' unsynced' : ''}`),
      shim: shim ?? '',
      cuts,
      seed: 5,
      entries: 14,
      unsynced,
    });

  test.each(['taking', 'entries', 'import', 'restore', 'night', 'first start'] as const)(
    '%s: what was acknowledged is there, and the file is sound',
    async (act) => {
      const report = await cut(act, 6);

      expect(report.amiss).toEqual([]);
      expect(report.held).toBeGreaterThan(0);
      expect(report.syncs).toBeGreaterThan(0);
    },
  );

  test('a program that syncs nothing would be found out', async () => {
    expect((await cut('entries', 9, true)).amiss).not.toEqual([]);
  });

  test('a backup, its checksum and their names are on the disk before an older one goes', async () => {
    const night = await recordAct('night', {
      folder: join(folder, 'night seen'),
      shim: shim ?? '',
      entries: 1,
    });
    const { at, disk } = diskBefore(
      night,
      ({ kind, path }) => kind === 'removed' && /2026-08-\d\dT\d{6}Z\.sqlite$/.test(path),
    );

    expect(at).toBeGreaterThan(0);
    expect(disk.asSeen().has('backups/pantry-2026-08-17T083000Z.sqlite')).toBe(true);
    expect(disk.unsynced().filter((path) => /backups|2026-08-17/.test(path))).toEqual([]);
  });

  test('a restored file is on the disk before it takes the place of the present one, and its name before it is acknowledged', async () => {
    const restored = await recordAct('restore', {
      folder: join(folder, 'restore seen'),
      shim: shim ?? '',
      entries: 1,
    });
    const { at, disk } = diskBefore(
      restored,
      ({ kind, bytes }) => kind === 'renamed' && bytes.toString().endsWith('/pantry.sqlite'),
    );
    expect(at).toBeGreaterThan(0);
    expect(disk.unsynced().filter((path) => path.endsWith('.restoring'))).toEqual([]);

    const [told] = restored.acknowledged;
    const then = diskBefore(restored, ({ end }) => end > (told?.at ?? 0));
    const afterwards = [...then.disk.afterCut('nothing', null).keys()];
    expect(afterwards).toContain('pantry.sqlite');
    expect(afterwards).toContain('pantry-before-restore-kill.sqlite');
  });
});

describe('the disk after a cut', () => {
  const opened = {
    kind: 'opened',
    pid: 1,
    fd: 3,
    at: 0,
    emptied: false,
    path: '/d/a',
    bytes: Buffer.of(),
    end: 0,
  } as const;
  const written = { ...opened, kind: 'written', path: '', bytes: Buffer.from('new') } as const;
  const synced = { ...opened, kind: 'synced', path: '' } as const;
  const folderSynced = [
    { ...opened, path: '/d', fd: 4 },
    { ...synced, fd: 4 },
  ] as const;
  const afterwards = (entries: readonly DiskEntry[]) => {
    const disk = openDisk('/d', new Map());
    for (const entry of entries) disk.apply(entry);
    return [...disk.afterCut('nothing', null)].map(([path, bytes]) => `${path}: ${bytes}`);
  };

  test('has the bytes that were synced under the names that were synced, and nothing else for sure', () => {
    expect(afterwards([opened, written, synced, ...folderSynced])).toEqual(['a: new']);
    expect(afterwards([opened, written, ...folderSynced])).toEqual(['a: ']);
    expect(afterwards([opened, written, synced])).toEqual([]);
    expect(
      afterwards([opened, written, synced, ...folderSynced, { ...written, bytes: Buffer.from('later') }]),
    ).toEqual(['a: new']);
  });

  test('keeps the old name of a file whose new one was not synced', () => {
    const renamed = { ...opened, kind: 'renamed', bytes: Buffer.from('/d/b') } as const;

    expect(afterwards([opened, written, synced, ...folderSynced, renamed])).toEqual(['a: new']);
    expect(afterwards([opened, written, synced, renamed, ...folderSynced])).toEqual(['b: new']);
  });
});
