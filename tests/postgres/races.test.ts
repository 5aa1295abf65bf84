import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ownDatabase } from './database.ts';
import { type Processes, processesOn, raced, races } from './races.ts';

let processes: Processes;
let drop: () => Promise<void>;
beforeAll(async () => {
  const own = await ownDatabase();
  drop = own.drop;
  processes = await processesOn(own.address);
});
afterAll(async () => {
  await processes.close();
  await drop();
});

/** `npm run bench:races` goes through each two hundred times. */
const times = 12;

describe('of several processes in the same moment', () => {
  it.each(Object.entries(races))('%s: it comes out as if one had waited', async (_, race) => {
    expect(await raced(race, processes, times)).toEqual({});
  });
});
