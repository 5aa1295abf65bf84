import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ownDatabase } from './database.ts';
import { heldBy, type Processes, processesOn, raced, races } from './races.ts';

let address: string;
let processes: Processes;
let drop: () => Promise<void>;
beforeAll(async () => {
  const own = await ownDatabase();
  ({ address, drop } = own);
  processes = await processesOn(address);
});
afterAll(async () => {
  await processes.close();
  await drop();
});

/** `npm run bench:races` goes through each two hundred times. */
const times = 12;
/** As often as it may come out well by chance alone. */
const mostWithout = 400;

describe('of several processes in the same moment', () => {
  it.each(Object.entries(races))('%s: it comes out as if one had waited', async (_, race) => {
    expect(await raced(race, processes, times)).toEqual({});
  });

  it('each of them is shown to come out wrong without something', () => {
    expect(Object.keys(heldBy).toSorted()).toEqual(Object.keys(races).toSorted());
  });

  it.each(Object.entries(heldBy))(
    '%s: without what it comes out well by, it does not',
    async (name, without) => {
      const unheld = await processesOn(address, { without });
      let wrong: Readonly<Record<string, number>> = {};
      for (let round = 0; round < mostWithout && Object.keys(wrong).length === 0; round += 1)
        wrong = await raced(races[name] ?? (async () => null), unheld, 1);
      await unheld.close();

      expect(Object.keys(wrong)).not.toEqual([]);
    },
  );
});
