import type { AddressInfo } from 'node:net';
import { buildApp } from '../../server/app.ts';
import { wallClock } from '../../server/clock.ts';
import { openDatabase } from '../../server/database/database.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';

// The pages of one file on a free port of this machine, without a planner: what the kill protocol starts and kills.

const db = await openDatabase(process.argv[2] ?? '');
const app = await buildApp({ db, reference: loadReferenceTables(), now: wallClock });
await app.listen({ host: '127.0.0.1', port: 0 });
console.log(`port ${(app.server.address() as AddressInfo).port}`);
