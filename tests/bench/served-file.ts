import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import type { InjectOptions } from 'fastify';
import type { Asked } from '../builders/visitor.ts';

/** What a server saw of itself since it was last asked. */
export interface Seen {
  /** Longest work of the serving thread without a pause, ms of the processor. */
  readonly longestWorkMs: number;
  /** Since its start. */
  readonly mostMemoryInMb: number;
}

/** The pages of a file, in a process of their own on a loopback address. */
export class ServedFile implements Asked {
  readonly #child: ChildProcess;
  readonly #address: string;

  private constructor(child: ChildProcess, port: number) {
    this.#child = child;
    this.#address = `http://127.0.0.1:${port}`;
  }

  static async start(file: string, now: number): Promise<ServedFile> {
    const child = fork(fileURLToPath(new URL('./files-server.ts', import.meta.url)), [file, String(now)], {
      execArgv: ['--import', 'tsx'],
    });
    const [{ port }] = (await once(child, 'message')) as [{ port: number }];
    return new ServedFile(child, port);
  }

  async inject({ method = 'GET', url, headers, payload }: InjectOptions) {
    const answer = await fetch(`${this.#address}${String(url)}`, {
      method,
      redirect: 'manual',
      headers: Object.fromEntries(
        Object.entries(headers ?? {}).map(([name, value]) => [name, String(value)]),
      ),
      ...(payload === undefined ? {} : { body: payload as string }),
    });
    return {
      statusCode: answer.status,
      body: await answer.text(),
      headers: { ...Object.fromEntries(answer.headers), 'set-cookie': answer.headers.getSetCookie() },
    };
  }

  async seen(): Promise<Seen> {
    const told = once(this.#child, 'message');
    this.#child.send('seen');
    const [seen] = (await told) as [Seen];
    return seen;
  }

  async close(): Promise<void> {
    const ended = once(this.#child, 'exit');
    this.#child.send('end');
    await ended;
  }
}
