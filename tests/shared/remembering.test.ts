import { expect, test } from 'vitest';
import { remembering, whileTheSame } from '../../shared/remembering.ts';

test('a question is answered once, and anew after the most that is remembered', () => {
  let asked = 0;
  const squareOf = remembering(
    (side: number) => {
      asked += 1;
      return side * side;
    },
    { most: 2 },
  );
  expect([squareOf(3), squareOf(3), squareOf(4)]).toEqual([9, 9, 16]);
  expect(asked).toBe(2);
  expect([squareOf(5), squareOf(3)]).toEqual([25, 9]);
  expect(asked).toBe(4);
});

interface Kitchen {
  readonly recipes: readonly string[];
  readonly canners: readonly string[];
  readonly day?: string;
}

test('an answer stands while every part of the question is the very same, and no longer', () => {
  let asked = 0;
  const answer = whileTheSame('recipes', ({ recipes, canners }: Kitchen) => {
    asked += 1;
    return `${recipes.length} ${canners.length}`;
  });
  const recipes = ['halves', 'jam'];
  const canners = ['tall pot'];
  expect(answer({ recipes, canners })).toBe('2 1');
  expect(answer({ canners, recipes })).toBe('2 1');
  expect(asked).toBe(1);
  // A list of the very same things is the same list; a shorter one is not, nor is a part that was not there.
  expect(answer({ recipes, canners: [...canners] })).toBe('2 1');
  expect(asked).toBe(1);
  expect(answer({ recipes, canners: [] })).toBe('2 0');
  expect(answer({ recipes, canners: [], day: '2026-08-17' })).toBe('2 0');
  expect(answer({ recipes, canners: [], day: '2026-08-18' })).toBe('2 0');
  expect(asked).toBe(4);
});

test('things in a list are the very same, not alike; of a set their order says nothing', () => {
  let asked = 0;
  const pot = { name: 'tall pot' };
  const jar = { name: 'pint' };
  const answer = whileTheSame(
    'pots',
    ({ pots, days }: { pots: readonly object[]; days: ReadonlySet<string> }) => {
      asked += 1;
      return pots.length + days.size;
    },
  );
  const pots = [pot, jar];
  expect(answer({ pots, days: new Set(['Monday', 'Friday']) })).toBe(4);
  expect(answer({ pots, days: new Set(['Friday', 'Monday']) })).toBe(4);
  expect(asked).toBe(1);
  expect(answer({ pots, days: new Set(['Friday', 'Sunday']) })).toBe(4);
  expect(answer({ pots, days: new Set(['Friday']) })).toBe(3);
  expect(asked).toBe(3);
  const inList = whileTheSame(
    'days',
    ({ pots: all }: { pots: readonly object[]; days: ReadonlySet<string> }) => {
      asked += 1;
      return all.length;
    },
  );
  const days = new Set<string>();
  inList({ pots: [pot, jar], days });
  inList({ pots: [pot, jar], days });
  expect(asked).toBe(4);
  inList({ pots: [jar, pot], days });
  inList({ pots: [{ ...pot }, jar], days });
  expect(asked).toBe(6);
});

test('two households are answered each from its own memory', () => {
  let asked = 0;
  const answer = whileTheSame('recipes', ({ recipes }: Kitchen) => {
    asked += 1;
    return recipes.join();
  });
  const [mine, theirs, canners] = [['halves'], ['jam'], ['tall pot']];
  for (let turn = 0; turn < 3; turn += 1) {
    expect(answer({ recipes: mine, canners })).toBe('halves');
    expect(answer({ recipes: theirs, canners })).toBe('jam');
  }
  expect(asked).toBe(2);
});
