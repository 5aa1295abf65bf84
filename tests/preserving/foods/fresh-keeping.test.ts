import { describe, expect, it } from 'vitest';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { freshKeeping } from '../../../src/preserving/foods/fresh-keeping.ts';

const { shelfLives } = loadReferenceTables();
const days = (name: string) => freshKeeping(name, shelfLives)?.days ?? null;

// University of Illinois Extension, Charts for storing meat in the refrigerator: poultry, ground meat, variety meats, fish and
// shellfish 1 to 2 days; FSIS shelf life data 296 for peppers, 283 for cucumbers, 282 for corn.
describe('what does not wait for a session', () => {
  it.each([
    ...[
      'Chicken frames',
      'Turkey carcass',
      'Soup bones',
      'Ground beef',
      'ground beef or sausage',
      'Venison, cubed',
    ],
    ...[
      'Pork shoulder',
      'Salmon fillets',
      'halibut',
      'Oysters',
      'Rabbit',
      'Hamburger',
      'Goat',
      'Stew beef',
      'poulet',
    ],
  ])('%s is bought within two days of it', (name) => {
    expect(days(name)).toBe(2);
  });

  it.each([
    ['jalapeno peppers', 4],
    ['onions and peppers', 4],
    ['Pickling cucumbers', 4],
    ['Sweet corn', 1],
  ])('%s stands as many days as its food does: %d', (name, expected) => {
    expect(days(name)).toBe(expected);
  });

  it.each([
    ...[
      'Chicken frames, frozen',
      'Chicken stock',
      'Beef bouillon',
      'Smoked salmon',
      'Canned tuna',
      'beef jerky',
    ],
    ...[
      'Sugar',
      'Canning salt',
      'Yellow onions',
      'garlic cloves',
      'Dry pinto beans',
      'beans or peas, dry',
      'Corn syrup',
    ],
    ...[
      'Black pepper',
      'Ground red pepper',
      'red pepper flakes',
      'Apple cider',
      'Bottled lemon juice',
      'golden raisins',
    ],
    ...[
      'maraschino cherries',
      'frozen grape concentrate',
      'celery seed',
      'cornstarch',
      'Liquid pectin',
      'white vinegar 5%',
    ],
  ])('%s keeps, and is bought with the rest', (name) => {
    expect(days(name)).toBeNull();
  });

  it('names the line of the table it follows from', () => {
    expect(freshKeeping('Chicken frames', shelfLives)?.row).toMatchObject({
      itemKey: 'fresh_poultry',
      sourceId: 'UI-MEAT',
      basis: 'read',
    });
  });
});
