import { type Kysely, sql } from 'kysely';

// Somebody said that a food a name seems to say is not in it. The answer is of one recipe and one exact name: it is forgotten
// when either changes, or what the recipe is based on, or its process.
export async function up(db: Kysely<unknown>): Promise<void> {
  await sql`CREATE TABLE name_denial (
    household_id TEXT NOT NULL,
    recipe_id TEXT NOT NULL,
    name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 500),
    other_food TEXT NOT NULL CHECK (length(other_food) BETWEEN 1 AND 500),
    denied_by TEXT,
    denied_at INTEGER NOT NULL,
    PRIMARY KEY (household_id, recipe_id, name),
    FOREIGN KEY (household_id, recipe_id) REFERENCES recipe (household_id, id) ON DELETE CASCADE
  ) STRICT`.execute(db);
  await sql
    .raw(`CREATE TRIGGER name_denial_forgotten_with_process
    AFTER UPDATE OF based_on, process_food, process_style, process_pack, item_id ON recipe
    WHEN OLD.based_on IS NOT NEW.based_on OR OLD.process_food IS NOT NEW.process_food
      OR OLD.process_style IS NOT NEW.process_style OR OLD.process_pack IS NOT NEW.process_pack
      OR OLD.item_id IS NOT NEW.item_id
    BEGIN DELETE FROM name_denial WHERE household_id = NEW.household_id AND recipe_id = NEW.id; END`)
    .execute(db);
  await sql
    .raw(`CREATE TRIGGER name_denial_forgotten_with_recipe_name AFTER UPDATE OF name ON recipe
    WHEN OLD.name IS NOT NEW.name
    BEGIN DELETE FROM name_denial WHERE household_id = NEW.household_id AND recipe_id = NEW.id AND name = OLD.name; END`)
    .execute(db);
  await sql
    .raw(`CREATE TRIGGER name_denial_forgotten_with_item_name AFTER UPDATE OF name ON item
    WHEN OLD.name IS NOT NEW.name
    BEGIN DELETE FROM name_denial WHERE household_id = NEW.household_id AND name = OLD.name
      AND recipe_id IN (SELECT id FROM recipe WHERE household_id = NEW.household_id AND item_id = NEW.id); END`)
    .execute(db);
}
