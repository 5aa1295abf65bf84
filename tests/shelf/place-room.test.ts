import { expect, test } from 'vitest';
import { asJarKind, type JarKind } from '../../shared/jar.ts';
import type { Item } from '../../src/household/item.ts';
import type { LotOnShelf } from '../../src/household/lot.ts';
import { placeRoom } from '../../src/shelf/place-room.ts';

const standing = (unitsLeft: number, jarKind: JarKind | null, freezerQuarts: number | null = null) => ({
  lot: { jarKind, unitsLeft } as LotOnShelf,
  item: { freezerQuarts } as Item,
});
const quart = asJarKind('quart', 'regular');
const pint = asJarKind('pint', 'wide');

test('a place is filled by its jars at their nominal volume and by what is frozen as it was said', () => {
  // 7 quarts, 9 pints (4.5 quarts), and 4 bags of 1.5 quarts.
  const room = placeRoom({ capacityQuarts: 40 }, [
    standing(7, quart),
    standing(9, pint),
    standing(4, null, 1.5),
  ]);

  expect(room.filled).toBeCloseTo(17.5, 9);
  expect(room.left).toBeCloseTo(22.5, 9);
  expect(room.lotsOfUnknownSize).toBe(0);
});

test('what is of no known size is counted apart, and never taken as nothing without a word', () => {
  expect(
    placeRoom({ capacityQuarts: 40 }, [standing(7, quart), standing(3, null), standing(2, null)]),
  ).toEqual({
    filled: 7,
    lotsOfUnknownSize: 2,
    left: 33,
  });
});

test('more than was said to fit leaves no room, and a place nobody measured leaves it unsaid', () => {
  expect(placeRoom({ capacityQuarts: 5 }, [standing(7, quart)]).left).toBe(0);
  expect(placeRoom({ capacityQuarts: null }, [standing(7, quart)]).left).toBeNull();
});
