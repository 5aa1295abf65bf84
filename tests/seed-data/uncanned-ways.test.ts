import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { leastHoursBefore, mostHoursBefore, stagesOfKey } from '../../src/preserving/stages/recipe-stages.ts';
import { uncannedNameProblem } from '../../src/preserving/uncanned/uncanned-name.ts';
import { materialsOfWay } from '../../src/preserving/uncanned/uncanned-ways.ts';

const tables = loadReferenceTables();
const ways = tables.uncannedWays;

describe('ways to keep a food without a canner', () => {
  test('have keys of their own, and none stands twice under one name', () => {
    expect(new Set(ways.map(({ wayKey }) => wayKey)).size).toBe(ways.length);
    expect(new Set(ways.map(({ name }) => name)).size).toBe(ways.length);
  });

  test('say no figure in lb or qt in their words: those stand in columns, and are written out for whoever reads them', () => {
    const said = ways.flatMap(({ steps, note, doneWhen }) => [...steps, note ?? '', doneWhen ?? '']);

    expect(said.filter((words) => /\d ?(lb|qt)\b/.test(words))).toEqual([]);
  });

  test('name crops, by-products, lines of shelf life and sources that there are', () => {
    const crops = new Set(tables.harvestWindows.map(({ cropKey }) => cropKey));
    const left = new Set(tables.recipeByProducts.map(({ material }) => material));
    const lives = new Set(
      tables.shelfLives.filter(({ state }) => state === 'unopened').map(({ itemKey }) => itemKey),
    );
    const sources = new Set(tables.sources.map(({ sourceId }) => sourceId));

    expect(ways.filter(({ cropKey }) => cropKey !== null && !crops.has(cropKey))).toEqual([]);
    expect(ways.flatMap(materialsOfWay).filter((material) => !left.has(material))).toEqual([]);
    expect(ways.filter(({ lifeKey }) => lifeKey !== null && !lives.has(lifeKey))).toEqual([]);
    expect(
      ways.filter(({ yieldSource }) => yieldSource !== null && !sources.has(yieldSource.sourceId)),
    ).toEqual([]);
  });

  // Issue 20: what the book must hold at least of what was read in a guide.
  test.each([
    ['frozen', 20],
    ['dried', 10],
    ['cellar', 8],
    ['fermented', 2],
  ])('of what is %s hold at least %i that were read in a guide', (keeping, least) => {
    const read = ways.filter((way) => way.keeping === keeping && way.basis === 'read');

    expect(read.length).toBeGreaterThanOrEqual(least);
  });

  test('print no amount of a crop without saying where it stands, and take from the store for a stated batch', () => {
    expect(ways.filter(({ lbPerUnit, yieldSource }) => lbPerUnit !== null && yieldSource === null)).toEqual(
      [],
    );
    expect(ways.filter(({ supplies, batchUnits }) => supplies.length > 0 && batchUnits === null)).toEqual([]);
  });

  test('say of every figure whether it was read: what stands under remembered sources is remembered', () => {
    expect(ways.filter(({ sourceId, basis }) => sourceId === 'MEMORY' && basis !== 'memory')).toEqual([]);
  });

  test('stand in a crock wherever they are kept under brine with a weight, for the days that the guide prints of it', () => {
    const underWeight = ways.filter(({ steps }) =>
      steps.some((step) => /plate and weight|crock/i.test(step)),
    );
    expect(underWeight.length).toBeGreaterThan(1);
    expect(ways.filter(({ stagesOf }) => stagesOf !== null)).toEqual(underWeight);
    for (const { stagesOf, readyDays, cropKey, sourceId } of underWeight) {
      const stages = stagesOfKey(tables, stagesOf ?? '');
      expect(
        stages.some(({ occupies, source }) => occupies === 'crock' && source.sourceId === sourceId),
      ).toBe(true);
      expect([leastHoursBefore(stages) / 24, mostHoursBefore(stages) / 24]).toEqual([
        readyDays?.low,
        readyDays?.high,
      ]);
      expect(cropKey).not.toBeNull();
    }
  });

  test('take the pounds of a whole batch as they are printed', () => {
    const kraut = ways.find(({ wayKey }) => wayKey === 'sauerkraut-cold');
    // USDA Complete Guide 6, p6-8: 25 lb gives about 9 quarts.
    expect((kraut?.lbPerUnit?.high ?? 0) * (kraut?.batchUnits ?? 0)).toBeCloseTo(25, 2);
  });

  test('are not what this program refuses to keep so', () => {
    expect(ways.filter(({ name, keeping }) => uncannedNameProblem(name, keeping) !== null)).toEqual([]);
  });

  test('take up freezer room only where they are frozen, and are dried in a dryer, never hotter than 190 °F', () => {
    expect(
      ways.filter(({ keeping, freezerQuarts }) => (freezerQuarts !== null) !== (keeping === 'frozen')),
    ).toEqual([]);
    expect(ways.filter(({ keeping, hours }) => hours !== null && keeping !== 'dried')).toEqual([]);
    expect(
      ways.filter(
        ({ keeping, blanchMinutes }) => blanchMinutes !== null && !['frozen', 'dried'].includes(keeping),
      ),
    ).toEqual([]);
    expect(ways.filter(({ tempF }) => tempF !== null && tempF.high > 190)).toEqual([]);
  });
});
