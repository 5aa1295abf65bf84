import { buildApp } from '../../server/app.ts';
import { openDatabase } from '../../server/database/database.ts';
import { makeDemoHousehold } from '../../server/demo/make-demo.ts';
import { itemsOf } from '../../server/queries/household/items.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { addDays, asDate } from '../../shared/week.ts';
import { Visitor } from '../builders/visitor.ts';

// npm run -s bench:import [-- --json]
// A stock list of 5,000 rows is sent to the demo household and previewed: 100 rows unfit, then every row unfit.
const rowsSent = 5000;
const rounds = 5;
const today = asDate('2026-08-12');

const db = await openDatabase(':memory:');
const householdId = await makeDemoHousehold(db, today);
const app = await buildApp({
  db,
  reference: loadReferenceTables(),
  now: () => Date.parse(`${today}T15:00:00Z`),
  requestsPerMinute: 10_000,
});
const names = (await itemsOf(db, householdId)).filter(({ unit }) => unit === 'jar').map(({ name }) => name);

const list = (isBad: (at: number) => boolean): string =>
  [
    'item,units,made,jar,best until',
    ...Array.from({ length: rowsSent }, (_, at) =>
      [
        isBad(at) ? `Unheard of ${at % 40}` : names[at % names.length],
        isBad(at) ? `${at % 7}x` : (at % 12) + 1,
        addDays(today, -(at % 300)),
        '',
        '',
      ].join(','),
    ),
  ].join('\n');

const visitor = new Visitor(app);
const page = await visitor.open('/files');
const csrf = /name="_csrf" value="([^"]+)"/.exec(page.body)?.[1] ?? '';
const median = (values: readonly number[]): number =>
  Math.round(values.toSorted((one, other) => one - other)[values.length >> 1] ?? 0);

const measured: Record<string, { upload: number; preview: number; largest: number; kilobytes: number }> = {};
for (const [what, content] of Object.entries({
  '100 rows unfit': list((at) => at % 50 === 0),
  'every row unfit': list(() => true),
})) {
  const uploads: number[] = [];
  const previews: number[] = [];
  let bytes = 0;
  for (let round = 0; round < rounds; round += 1) {
    const began = performance.now();
    const sent = await visitor.upload(
      '/files/lists',
      { _csrf: csrf, key: `bench-${what}-${round}`, kind: 'stock' },
      content,
    );
    const uploaded = performance.now();
    const shown = await visitor.open(sent.location);
    const previewed = performance.now();
    if (shown.status !== 200) throw new Error(`import: expected a preview, got ${shown.status}`);
    uploads.push(uploaded - began);
    previews.push(previewed - uploaded);
    bytes = shown.body.length;
  }
  measured[what] = {
    upload: median(uploads),
    preview: median(previews),
    largest: Math.round(Math.max(...uploads.map((upload, at) => upload + (previews[at] ?? 0)))),
    kilobytes: Math.round(bytes / 1024),
  };
}
if (process.argv.includes('--json')) console.log(JSON.stringify(measured));
else
  for (const [what, { upload, preview, largest, kilobytes }] of Object.entries(measured))
    console.log(
      `${rowsSent} rows, ${what}: upload ${upload} ms, preview ${preview} ms (median of ${rounds}; slowest together ${largest} ms), page ${kilobytes} kB`,
    );
await app.close();
await db.destroy();
