import { describe, expect, it } from 'vitest';
import { asJarKind, type JarKind } from '../../../shared/jar.ts';
import { asCents } from '../../../shared/money.ts';
import type { JarStock, LidStock } from '../../../src/household/supplies.ts';
import {
  jarsToFill,
  lidsToClose,
  noVesselGuesses,
  uncountedVessels,
  type VesselGuesses,
} from '../../../src/planning/year/vessels.ts';

const pint = asJarKind('pint', 'regular');
const widePint = asJarKind('pint', 'wide');
const quart = asJarKind('quart', 'regular');
const halfPint = asJarKind('half-pint', 'regular');

const stock = (kind: JarKind, price: number, pack = 12): JarStock =>
  ({ kind, owned: 40, empty: 10, pack, price: asCents(price), returnShare: 0.5 }) as JarStock;
const lids = (mouth: 'regular' | 'wide', boxPrice: number): LidStock =>
  ({ mouth, onHand: 7, box: 12, boxPrice: asCents(boxPrice) }) as LidStock;
const filling = (...kinds: readonly (JarKind | null)[]) => kinds.map((jarKind) => ({ jarKind }));
const guess = (kind: JarKind, price: number, pack = 12) => ({ kind, pack, price: asCents(price) });
const guessing = (...jars: VesselGuesses['jars']): VesselGuesses => ({ ...noVesselGuesses, jars });

describe('a jar that some recipe fills and nobody counted', () => {
  it('is none, told once, after what was counted and in the order of their names', () => {
    expect(
      jarsToFill(filling(quart, null, pint, halfPint, quart), [stock(pint, 1500)], noVesselGuesses),
    ).toEqual([
      { kind: pint, owned: 40, empty: 10, pack: 12, packPrice: 1500, returnShare: 0.5 },
      { kind: halfPint, owned: 0, empty: 0, pack: 12, packPrice: 1500, returnShare: 0 },
      { kind: quart, owned: 0, empty: 0, pack: 12, packPrice: 1500, returnShare: 0 },
    ]);
  });

  it('costs what the dearest jar costs, not the dearest pack', () => {
    const [, uncounted] = jarsToFill(
      filling(quart),
      [stock(pint, 1500, 6)],
      guessing(guess(halfPint, 2400, 12)),
    );
    expect(uncounted).toMatchObject({ pack: 6, packPrice: 1500 });
    const [, guessed] = jarsToFill(
      filling(quart),
      [stock(pint, 1500, 12)],
      guessing(guess(halfPint, 900, 4)),
    );
    expect(guessed).toMatchObject({ pack: 4, packPrice: 900 });
  });

  it('costs what its own size does before any other', () => {
    const known = guessing(guess(pint, 9000), guess(quart, 800));
    expect(
      jarsToFill(filling(widePint), [stock(quart, 5000), stock(pint, 1500)], known).at(-1),
    ).toMatchObject({
      kind: widePint,
      packPrice: 1500,
    });
    expect(jarsToFill(filling(widePint), [stock(quart, 5000)], known).at(-1)).toMatchObject({
      packPrice: 9000,
    });
  });
});

describe('lids of a mouth that nobody counted', () => {
  const known: VesselGuesses = { jars: [], lids: { box: 24, boxPrice: asCents(700) } };

  it('cost what those of the other mouth do, else what is guessed', () => {
    expect(lidsToClose(filling(widePint, pint, null), [lids('regular', 400)], known)).toEqual([
      { mouth: 'regular', onHand: 7, box: 12, boxPrice: 400 },
      { mouth: 'wide', onHand: 0, box: 12, boxPrice: 400 },
    ]);
    expect(lidsToClose(filling(widePint, pint), [], known)).toEqual([
      { mouth: 'regular', onHand: 0, box: 24, boxPrice: 700 },
      { mouth: 'wide', onHand: 0, box: 24, boxPrice: 700 },
    ]);
  });

  it('are told of no mouth that no recipe closes', () => {
    expect(lidsToClose(filling(pint), [], known).map(({ mouth }) => mouth)).toEqual(['regular']);
    expect(lidsToClose(filling(null), [], known)).toEqual([]);
    expect(lidsToClose(filling(pint), [lids('wide', 400)], noVesselGuesses)).toHaveLength(2);
    expect(lidsToClose(filling(pint), [lids('regular', 400)], noVesselGuesses)).toHaveLength(1);
  });
});

it('vessels nobody counted are those that were added', () => {
  const counted = { jars: [stock(pint, 1500)], lids: [lids('regular', 400)] };
  const all = {
    jars: jarsToFill(filling(quart, pint), counted.jars, noVesselGuesses),
    lids: lidsToClose(filling(widePint, pint), counted.lids, noVesselGuesses),
  };
  const uncounted = uncountedVessels(all, counted);
  expect(uncounted.jars.map(({ kind }) => kind)).toEqual([quart]);
  expect(uncounted.lids.map(({ mouth }) => mouth)).toEqual(['wide']);
});
