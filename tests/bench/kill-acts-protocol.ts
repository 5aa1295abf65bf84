import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { congruential32 } from 'pure-rand/generator/congruential32';
import { type Act, stages } from './act-stages.ts';

// Acts on a file are killed with SIGKILL, each in a process of its own; then the file is held against what the process had
// acknowledged. How long an act takes is measured on the way, so that kills fall before, in and after it on any machine.

export const killedActs = [
  'backup',
  'restore',
  'migration',
  'planning',
  'import',
] as const satisfies readonly Act[];
export type KilledAct = (typeof killedActs)[number];

export interface ActReport {
  readonly kills: number;
  /** Of them, those that came before the act was acknowledged. */
  readonly inTheMiddle: number;
  readonly acknowledged: number;
  /** How long the act took when it was not killed, in ms; the middle of all that came to an end. */
  readonly usualMs: number;
  /** What was found amiss, in words; empty when every acknowledgement is there once and nothing is half done. */
  readonly amiss: readonly string[];
}

const root = resolve(import.meta.dirname, '../..');

interface Ran {
  /** What `done` acknowledged; null when it was not said. */
  readonly acknowledged: string | null;
  /** From its beginning to its acknowledgement; null when that was not seen. */
  readonly ms: number | null;
}

type KillTime =
  | { readonly afterBeginningMs: number }
  /** At once when 0: before the process has closed its file. */
  | { readonly afterAcknowledgementMs: number };

const pause = (ms: number): Promise<void> => new Promise((wake) => setTimeout(wake, ms));

/** Runs an act and kills it. Its process never ends by itself, so every kill is one. */
async function runAct(args: readonly string[], time: KillTime): Promise<Ran> {
  const child = spawn(process.execPath, ['--import', 'tsx', 'tests/bench/one-act.ts', ...args], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, STAYS: 'yes' },
  });
  let said = '';
  let complained = '';
  let doneAt: number | null = null;
  const exit = once(child, 'exit');
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    complained += text;
  });
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    said += text;
    if (/^done .*\n/m.test(said)) doneAt ??= performance.now();
    child.stdout.emit('heard');
  });
  const until = async (heard: () => boolean): Promise<void> => {
    while (!heard() && child.exitCode === null) await Promise.race([once(child.stdout, 'heard'), exit]);
  };
  await until(() => said.includes('begins'));
  const began = performance.now();
  if ('afterBeginningMs' in time) await Promise.race([pause(time.afterBeginningMs), exit]);
  else {
    await until(() => doneAt !== null);
    if (time.afterAcknowledgementMs > 0) await pause(time.afterAcknowledgementMs);
  }
  if (child.exitCode !== null)
    throw new Error(
      `${args[0]}: the act ended by itself with code ${child.exitCode}: ${complained.slice(0, 400)}`,
    );
  child.kill('SIGKILL');
  await exit;
  return {
    acknowledged: /^done (.*)$/m.exec(said)?.[1] ?? null,
    ms: doneAt === null ? null : doneAt - began,
  };
}

const middleOf = (list: readonly number[]): number => list.toSorted((a, b) => a - b)[list.length >> 1] ?? 0;

/** Of three kills, one comes just after the acknowledgement, and two at any moment up to 1.3 times the usual duration. */
export async function killInTheMiddle(
  act: KilledAct,
  { folder, kills, seed }: { readonly folder: string; readonly kills: number; readonly seed: number },
): Promise<ActReport> {
  mkdirSync(folder, { recursive: true });
  const stage = await stages[act](folder);
  const took: number[] = [];
  const random = congruential32(seed);
  const amiss: string[] = [];
  let acknowledged = 0;
  for (let kill = 0; kill < kills; kill += 1) {
    // The last few, as a machine may become slower or faster meanwhile.
    const usual = middleOf(took.slice(-9));
    const time: KillTime =
      kill % 3 === 0
        ? { afterAcknowledgementMs: kill % 2 === 0 ? 0 : uniformInt(random, 0, 30) }
        : { afterBeginningMs: uniformInt(random, 0, Math.ceil(usual * 1.3)) };
    const ran = await runAct([act, ...stage.set()], time);
    if (ran.ms !== null) took.push(ran.ms);
    if (ran.acknowledged !== null) acknowledged += 1;
    const found = await stage.look(ran.acknowledged).catch((cause: unknown) => String(cause));
    if (found !== null) amiss.push(found);
  }
  return {
    kills,
    inTheMiddle: kills - acknowledged,
    acknowledged,
    usualMs: Math.round(middleOf(took)),
    amiss,
  };
}
