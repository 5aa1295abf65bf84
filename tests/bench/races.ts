import { sql } from 'kysely';
import { openDatabase } from '../../server/database/database.ts';
import { openPostgres } from '../../server/database/postgres.ts';
import { programsOfPostgres, startCluster } from '../postgres/cluster.ts';
import { heldBy, processesOn, raced, races, readingsOfRound } from '../postgres/races.ts';

// npm run -s bench:races -- [200]: goes through each race of two and more processes so many times on a PostgreSQL of its own and
// says what came out wrong; and then without what each comes out well by, where it has to come out wrong.

const times = Number(process.argv[2] ?? 200);
const programs = programsOfPostgres();
if (programs === null) {
  console.log('There is no PostgreSQL on this machine: nothing was run.');
} else {
  const cluster = startCluster(programs);
  let wrong = 0;
  try {
    const any = await openPostgres(cluster.address('postgres'), { getMigrations: async () => ({}) });
    await sql`CREATE DATABASE races`.execute(any);
    await any.destroy();
    await (await openDatabase(cluster.address('races'))).destroy();
    const processes = await processesOn(cluster.address('races'));
    for (const [name, race] of Object.entries(races)) {
      const bad = await raced(race, processes, times);
      const count = Object.values(bad).reduce((sum, each) => sum + each, 0);
      wrong += count;
      console.log(`${name}: ${count} of ${times} wrong${count === 0 ? '' : ` ${JSON.stringify(bad)}`}`);
    }
    await processes.close();
    console.log(`${times * readingsOfRound} readings of facts among them.`);
    for (const [name, without] of Object.entries(heldBy)) {
      const unheld = await processesOn(cluster.address('races'), { without });
      const bad = await raced(races[name] ?? (async () => null), unheld, times);
      await unheld.close();
      const count = Object.values(bad).reduce((sum, each) => sum + each, 0);
      if (count === 0) wrong += 1;
      console.log(
        `${name}, without “${without}”: ${count} of ${times} wrong${count === 0 ? ', so that race proves nothing' : ''}`,
      );
    }
  } finally {
    cluster.stop();
  }
  process.exitCode = wrong === 0 ? 0 : 1;
}
