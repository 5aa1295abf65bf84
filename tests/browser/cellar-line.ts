import { type AddressInfo, connect, createServer, type Socket } from 'node:net';

/** A line to a server that can be cut and mended, as signal comes and goes in a cellar. */
export interface CellarLine {
  readonly address: string;
  cut(): void;
  /** Takes what is sent and lets nothing of it through, as a weak signal does. */
  hold(): void;
  mend(): void;
  close(): Promise<void>;
}

/**
 * Stands between a browser and a port of this machine. A browser told to be offline still lets its service worker through
 * after a reload; a line that is cut lets nobody through.
 */
export async function cellarLine(port: number): Promise<CellarLine> {
  let isCut = false;
  let isHeld = false;
  const open = new Set<Socket>();
  const keep = (socket: Socket) => {
    open.add(socket);
    socket.on('close', () => open.delete(socket));
    socket.on('error', () => socket.destroy());
  };
  const line = createServer((near) => {
    if (isCut) {
      near.destroy();
      return;
    }
    if (isHeld) {
      keep(near);
      return;
    }
    const far = connect(port, '127.0.0.1');
    keep(near);
    keep(far);
    near.pipe(far).pipe(near);
  });
  await new Promise<void>((listening) => line.listen(0, '127.0.0.1', listening));
  const drop = () => {
    for (const socket of open) socket.destroy();
  };
  return {
    address: `http://127.0.0.1:${(line.address() as AddressInfo).port}`,
    cut: () => {
      isCut = true;
      drop();
    },
    hold: () => {
      isHeld = true;
      drop();
    },
    mend: () => {
      if (isHeld) drop();
      isCut = false;
      isHeld = false;
    },
    close: () =>
      new Promise((closed) => {
        drop();
        line.close(() => closed());
      }),
  };
}
