import { type ChildProcess, fork } from 'node:child_process';
import { Agent, request } from 'node:http';
import { fileURLToPath } from 'node:url';
import type { InjectOptions } from 'fastify';
import type { Asked } from '../builders/visitor.ts';

/** What is served, and the clock it is served by. */
export interface Serving {
  readonly file: string;
  /** Instant at the start, and how far the clock goes on each time somebody looks at it, ms. */
  readonly began: number;
  readonly tickMs: number;
  readonly publicAddress: string;
}

/** What a server saw of itself. */
export interface Seen {
  /** Longest work of the serving thread without a pause since it was last asked, ms of the processor. */
  readonly longestWorkMs: number;
  /** The most memory of the process since its start. */
  readonly mostMemoryInMb: number;
}

interface ServedRoute {
  readonly method: string;
  readonly url: string;
}

export type Told =
  | ({ readonly kind: 'seen' } & Seen)
  | { readonly kind: 'serving'; readonly port: number; readonly routes: readonly ServedRoute[] }
  | { readonly kind: 'set' }
  | { readonly kind: 'log'; readonly line: string };

/** The pages of a file, in a process of their own on a loopback address. */
export class ServedFile implements Asked {
  readonly address: string;
  readonly routes: readonly ServedRoute[];
  readonly #child: ChildProcess;
  readonly #port: number;
  readonly #agent = new Agent({ keepAlive: true });

  private constructor(child: ChildProcess, { port, routes }: Extract<Told, { kind: 'serving' }>) {
    this.#child = child;
    this.#port = port;
    this.address = `http://127.0.0.1:${port}`;
    this.routes = routes;
  }

  /** `told` hears every line of the server's log. */
  static async start(
    { tickMs = 1, publicAddress = '', ...serving }: Partial<Serving> & Pick<Serving, 'file' | 'began'>,
    told: (line: string) => void = () => undefined,
  ): Promise<ServedFile> {
    const asked: Serving = { tickMs, publicAddress, ...serving };
    const child = fork(
      fileURLToPath(new URL('./served-file-process.ts', import.meta.url)),
      [JSON.stringify(asked)],
      { execArgv: ['--import', 'tsx'] },
    );
    child.on('message', (one: Told) => {
      if (one.kind === 'log') told(one.line);
    });
    return new ServedFile(child, await heard(child, 'serving'));
  }

  /** Sends the address as it stands, without putting it right. */
  inject({ method = 'GET', url, headers = {}, cookies, payload }: InjectOptions) {
    const sent = Object.fromEntries(Object.entries(headers).map(([name, value]) => [name, String(value)]));
    if (cookies !== undefined)
      sent.cookie = Object.entries(cookies)
        .map(([name, value]) => `${name}=${value}`)
        .join('; ');
    const body = typeof payload === 'object' ? JSON.stringify(payload) : payload;
    if (typeof payload === 'object') sent['content-type'] = 'application/json';
    if (body !== undefined) sent['content-length'] = String(Buffer.byteLength(body));
    return new Promise<Awaited<ReturnType<Asked['inject']>>>((resolve, reject) => {
      const asking = request(
        { host: '127.0.0.1', port: this.#port, path: String(url), method, headers: sent, agent: this.#agent },
        (answer) => {
          const parts: Buffer[] = [];
          answer.on('data', (part: Buffer) => parts.push(part));
          answer.on('error', reject);
          answer.on('end', () =>
            resolve({
              statusCode: answer.statusCode ?? 0,
              body: Buffer.concat(parts).toString('utf8'),
              headers: answer.headers,
            }),
          );
        },
      );
      asking.on('error', reject);
      asking.end(body);
    });
  }

  async seen(): Promise<Seen> {
    const told = heard(this.#child, 'seen');
    this.#child.send('seen');
    return told;
  }

  /** Sets the server's clock. */
  async setClock(now: number): Promise<void> {
    const told = heard(this.#child, 'set');
    this.#child.send({ now });
    await told;
  }

  async close(): Promise<void> {
    this.#agent.destroy();
    const ended = new Promise((resolve) => this.#child.once('exit', resolve));
    this.#child.send('end');
    await ended;
  }
}

const heard = <Kind extends Told['kind']>(child: ChildProcess, kind: Kind) =>
  new Promise<Extract<Told, { kind: Kind }>>((resolve, reject) => {
    const gone = () => reject(new Error('expected the server to go on; it ended'));
    const hear = (told: Told) => {
      if (told.kind !== kind) return;
      child.off('message', hear).off('exit', gone);
      resolve(told as Extract<Told, { kind: Kind }>);
    };
    child.on('message', hear).once('exit', gone);
  });
