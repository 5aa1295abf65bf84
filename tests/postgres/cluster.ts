import { execFileSync } from 'node:child_process';
import { chownSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir, userInfo } from 'node:os';
import { delimiter, join } from 'node:path';

// A PostgreSQL of the tests' own: its data in a fresh folder, reached by a socket in it alone, and gone at the end.

/** Where PostgreSQL's programs are on this machine, the newest; null where there are none. */
export function programsOfPostgres(): string | null {
  const debian = '/usr/lib/postgresql';
  const versions = existsSync(debian)
    ? readdirSync(debian).sort((one, other) => Number(other) - Number(one))
    : [];
  const folders = [
    ...versions.map((version) => join(debian, version, 'bin')),
    ...(process.env.PATH ?? '').split(delimiter),
  ];
  return (
    folders.find((folder) =>
      ['initdb', 'pg_ctl', 'postgres'].every((name) => existsSync(join(folder, name))),
    ) ?? null
  );
}

export interface Cluster {
  /** The address of one of its databases. */
  address(database: string): string;
  /** Ends it as a crash does, and begins it again. */
  crash(): void;
  /** The process all others of it come from. */
  pid(): number;
  stop(): void;
}

/** It refuses to run as root; then it runs as a user that may do nothing else. */
function otherUser(): { readonly uid: number; readonly gid: number } | null {
  if (userInfo().uid !== 0) return null;
  const idOf = (flag: string, name: string): number =>
    Number(execFileSync('id', [flag, name], { encoding: 'utf8' }));
  for (const name of ['postgres', 'nobody'])
    try {
      return { uid: idOf('-u', name), gid: idOf('-g', name) };
    } catch {
      // There is no such user here.
    }
  throw new Error('PostgreSQL does not run as root, and there is neither a user postgres nor nobody here');
}

/** One that is `durable` has on the disk what it acknowledged, as a server that is used does. */
export function startCluster(programs: string, isDurable = false): Cluster {
  const folder = mkdtempSync(join(tmpdir(), 'shelfward-pg-'));
  const user = otherUser();
  if (user !== null) chownSync(folder, user.uid, user.gid);
  const data = join(folder, 'data');
  const run = (name: string, args: readonly string[]): void =>
    void execFileSync(join(programs, name), args, {
      cwd: folder,
      stdio: 'ignore',
      env: { PATH: process.env.PATH },
      ...user,
    });
  let began = '';
  const begin = (options: string): void => {
    began = options;
    run('pg_ctl', ['-D', data, '-w', '-t', '120', '-o', options, '-l', join(folder, 'log'), 'start']);
  };
  try {
    run('initdb', ['-D', data, '-U', 'shelfward', '-A', 'trust', '--no-sync', '--locale=C', '-E', 'UTF8']);
    const settings = {
      listen_addresses: '',
      unix_socket_directories: folder,
      // What is tried here need not outlive the machine.
      ...(isDurable
        ? {}
        : { fsync: 'off', full_page_writes: 'off', synchronous_commit: 'off', autovacuum: 'off' }),
      max_connections: '300',
      shared_buffers: '64MB',
    };
    const options = Object.entries(settings).map(([name, value]) => `-c ${name}='${value}'`);
    begin(options.join(' '));
  } catch (cause) {
    rmSync(folder, { recursive: true, force: true });
    throw cause;
  }
  return {
    address: (database) => `postgres://shelfward@localhost/${database}?host=${encodeURIComponent(folder)}`,
    crash: () => {
      run('pg_ctl', ['-D', data, '-m', 'immediate', '-w', 'stop']);
      begin(began);
    },
    pid: () => Number.parseInt(readFileSync(join(data, 'postmaster.pid'), 'utf8'), 10),
    stop: () => {
      run('pg_ctl', ['-D', data, '-m', 'immediate', '-w', 'stop']);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
