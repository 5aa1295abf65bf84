import { type Kysely, sql } from 'kysely';

// What a recipe is based on is a key from now on; older demo households named a page of a guide instead. A process that
// was refused leaves its reason. A gauge check says how many psi the dial was off, above 0 where it read high.
const keyOfPage: readonly (readonly [page: string, food: string | null, key: string])[] = [
  ['UI-EXT strawberry jam page', 'strawberry-jam', 'strawberry-jam'],
  ['NCHFP-COPY cherry jam page', 'cherry-jam', 'cherry-jam-powder'],
  ['MU-SS recipe 437', 'berry-jam', 'berry-jam-no-pectin-large'],
  ['MU-SS recipe 147', 'peach-jam', 'peach-jam-liquid'],
  ['MU-SS recipe 166', 'grape-jelly', 'grape-jelly-powder'],
  ['USDA-G2 p2-6', 'apple-butter', 'apple-butter'],
  ['USDA-G2 p2-19', 'peaches', 'peaches-quarts'],
  ['USDA-G2 p2-19', 'pears', 'pears-quarts'],
  ['USDA-G2 p2-7', 'applesauce', 'applesauce-pints'],
  ['USDA-G3 p3-7', 'tomatoes-crushed', 'tomatoes-crushed-quarts'],
  ['USDA-G3 p3-8', 'tomato-sauce', 'tomato-sauce-thin-pints'],
  ['USDA-G3 p3-21', 'chile-salsa', 'chile-salsa'],
  ['USDA-G6 p6-10', 'quick-dill-pickles', 'quick-dill-pickles'],
  ['USDA-G6 p6-9', 'bread-and-butter-pickles', 'bread-and-butter-pickles'],
  ['USDA-G6 p6-15', 'pickled-beets', 'pickled-beets'],
  ['USDA-G4 p4-8', 'beans-snap', 'beans-snap-pints'],
  ['USDA-G4 p4-11', 'corn-whole-kernel', 'corn-whole-kernel-pints'],
  ['USDA-G5 meat stock', 'meat-stock', 'meat-stock'],
  ['USDA-G4 p4-5', 'beans-dried', 'beans-dried-pints'],
  ['USDA-G6 p6-8', null, 'sauerkraut'],
];

export async function up(db: Kysely<unknown>): Promise<void> {
  for (const [page, food, key] of keyOfPage)
    await sql`UPDATE recipe SET based_on = ${key} WHERE based_on = ${page} AND process_food IS ${food}`.execute(
      db,
    );

  await sql`ALTER TABLE recipe ADD COLUMN process_refused TEXT`.execute(db);
  for (const at of ['5', '10', '15']) {
    const column = `gauge_off_at_${at}_psi`;
    await sql`ALTER TABLE canner ADD COLUMN ${sql.ref(column)} REAL
      CHECK (${sql.ref(column)} BETWEEN -15 AND 15)`.execute(db);
  }
  await sql`ALTER TABLE canner ADD COLUMN volume_quarts REAL CHECK (volume_quarts BETWEEN 1 AND 60)`.execute(
    db,
  );
}
