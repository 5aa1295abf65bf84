import { writeFileSync } from 'node:fs';
import { test } from 'vitest';
import { asDate } from '../shared/week.ts';
import { HouseholdByPages } from './builders/household-by-pages.ts';

test('life', { timeout: 900_000 }, async () => {
  const out: string[] = [];
  const home = await HouseholdByPages.beginning(asDate('2026-04-12'));
  await home.setUp({ town: 'Lancaster, PA', altitude: '1210', name: 'Osier Point' });
  const show = async (...pages: string[]) => {
    for (const page of pages) out.push(`\n##### ${home.today} ${page}`, (await home.words(page)).replace(/ (Search This week The year Shelf Harvest.*)$/s, ''));
  };
  await home.bringInStock(
    ['Item,Jar size,Count,Put up on,Place', 'Peach halves,quart,9,2024-08-20,Cellar', 'Dill pickles,pint,4,2025-08-02,Cellar', 'Plum butter,half-pint,11,2023-09-15,Cellar', 'Crushed tomatoes,quart,17,2025-09-01,Cellar', 'Strawberry jam,half-pint,3,2025-06-20,Pantry'].join('\n'),
  ).catch((e: Error) => out.push(`STOCK ${e.message}`));
  await home.plan();
  await show('/', '/shelf', '/year', '/targets', '/notices', '/buying');
  writeFileSync('/tmp/shelf/life.txt', out.join('\n'));
  home.goTo(asDate('2026-05-03'));
  await home.tick(asDate('2026-05-03'), { 'crushed-tomatoes': 5, 'peach-halves': 2 }).catch((e: Error) => out.push(`TICK ${e.message}`));
  home.goTo(asDate('2026-06-21'));
  const plan = await home.plan();
  await show('/', '/notices', '/harvest', '/canning-day');
  for (const week of plan.weeks.slice(0, 3)) for (const s of week.sessions) await home.writeDown(week.week, s).catch((e: Error) => out.push(`WRITE ${e.message.slice(0, 300)}`));
  writeFileSync('/tmp/shelf/life.txt', out.join('\n'));
  home.goTo(asDate('2026-08-30'));
  await home.tick(asDate('2026-08-30'), { 'crushed-tomatoes': 6, 'strawberry-jam': 3 }).catch((e: Error) => out.push(`TICK ${e.message}`));
  await home.plan();
  await show('/', '/notices', '/year', '/canning-day', '/look-back', '/safety');
  home.goTo(asDate('2027-01-17'));
  await home.plan();
  await show('/', '/notices', '/year', '/targets', '/look-back', '/kitchen', '/items/peach-halves');
  writeFileSync('/tmp/shelf/life.txt', out.join('\n'));
  await home.close();
});
