import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cpuSince } from './cpu-of.ts';

const burntMs = 400;

/** Begins another that burns so much of the processor, is asked for as much again, and ends. */
const source = `
  const { spawn } = require('node:child_process');
  const burn = 'const burn = () => { const from = process.cpuUsage(); for (;;) { const { user, system } = process.cpuUsage(from); if (user + system > ${burntMs}000) return; } };';
  const other = spawn(process.execPath, ['-e', burn + 'burn(); console.log("burnt"); process.stdin.once("data", () => { burn(); process.exit(); });']);
  other.stdout.once('data', () => console.log('burnt'));
  process.stdin.once('data', () => other.stdin.write('again'));
  other.once('exit', () => console.log('ended'));
`;

describe.runIf(process.platform === 'linux')('what processes used of the processor', () => {
  let own: ChildProcess;
  const line = () => once(own.stdout as NodeJS.ReadableStream, 'data');
  beforeAll(() => {
    own = spawn(process.execPath, ['-e', source]);
  });
  afterAll(() => own.kill());

  it('holds what one used that ended meanwhile, and what it had used before only once', async () => {
    await line();
    const used = cpuSince({ both: () => [own.pid] });
    own.stdin?.write('again');
    await line();
    const { both } = used();
    expect(both.ms).toBeGreaterThan(burntMs * 0.9);
    expect(both.ms).toBeLessThan(burntMs * 1.7);
  });
});
