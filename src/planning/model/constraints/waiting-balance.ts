import { entry, orNone } from '../../lookup.ts';
import { begunInWeek } from '../../year/stage-weeks.ts';
import { lastUseWeek } from '../../year/supply-weeks.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { givenOf, needOf, type RawMaterial } from '../raw-materials.ts';

/**
 * Raw material comes in, is used, waits a little, is frozen, or is lost; nothing waits longer than it keeps. A batch takes
 * and gives it in the week in which it is begun.
 *
 * For a crop this is `produce_limit[crop,week]`, for a by-product `waiting_balance[material,week]`, in lb or the
 * material's unit: `taken from sources + given by batches + waiting[m,w-1] + thawed[m,w] = needed by batches + frozen in
 * w + waiting[m,w] + lost[m,w]`. `use_by`: `waiting[m,w] <= what came in and keeps for a week to come`;
 * of several sources each for itself (`waits_of`, `use_by_of`). `thaw_limit`:
 * what is thawed serves only recipes that allow it.
 */
export function waitingBalance(draft: Draft): void {
  const { sets, writer } = draft;
  sets.rawMaterials.forEach((rawMaterial, at) => {
    const family = rawMaterial.kind === 'crop' ? 'produce_limit' : 'waiting_balance';
    sets.weekIndexes.forEach((week) => {
      const key = `${rawMaterial.key},${sets.year.weeks[week]}`;
      const given = week === 0 ? rawMaterial.opening : 0;
      writer.row(`${family}[${key}]`, -given, balanceEntries(draft, rawMaterial, at, week), -given);
      if (rawMaterial.sources.length > 1) useByOfSources(draft, rawMaterial, at, week, key);
      else useBy(draft, rawMaterial, at, week, key);
      thawLimit(draft, rawMaterial, at, week, key);
    });
    frozenBalance(draft, rawMaterial, at);
  });
}

function balanceEntries(draft: Draft, rawMaterial: RawMaterial, at: number, week: number): Entry[] {
  const { sets, columns } = draft;
  const entries: Entry[] = [...inflowEntries(draft, rawMaterial, week)];
  sets.recipes.forEach((recipe, recipeAt) => {
    const batches = begunInWeek(columns.batches[recipeAt], recipe, week);
    if (batches != null) entries.push([batches, -needOf(recipe, rawMaterial).any]);
  });
  const signed: readonly (readonly [number | null | undefined, number])[] = [
    [columns.waiting[at]?.[week - 1], 1],
    [columns.thawed[at]?.[week], 1],
    [columns.waiting[at]?.[week], -1],
    [columns.frozenIn[at]?.[week], -1],
    [columns.lost[at]?.[week], -1],
  ];
  for (const [column, sign] of signed) if (column != null) entries.push([column, sign]);
  return entries;
}

/** What comes in during a week: taken from sources, given by batches. */
function inflowEntries({ sets, columns }: Draft, rawMaterial: RawMaterial, week: number): Entry[] {
  return [
    ...rawMaterial.sources.flatMap((source): Entry[] => {
      const taken = columns.produce[source]?.[week];
      return taken == null ? [] : [[taken, 1]];
    }),
    ...sets.recipes.flatMap((recipe, recipeAt): Entry[] => {
      const batches = begunInWeek(columns.batches[recipeAt], recipe, week);
      return batches == null ? [] : [[batches, givenOf(recipe, rawMaterial)]];
    }),
  ];
}

function useBy(draft: Draft, rawMaterial: RawMaterial, at: number, week: number, key: string): void {
  const waiting = draft.columns.waiting[at]?.[week];
  if (waiting == null) return;
  const entries: Entry[] = [[waiting, 1]];
  const [only] = rawMaterial.sources;
  const stillGood = (came: number) =>
    only === undefined
      ? came > week - rawMaterial.carryWeeks
      : lastUseWeek(entry(draft.sets.sources, only, 'sources'), came) > week;
  for (let came = 0; came <= week; came += 1)
    if (stillGood(came))
      for (const [column, amount] of inflowEntries(draft, rawMaterial, came)) entries.push([column, -amount]);
  draft.writer.row(
    `use_by[${key}]`,
    Number.NEGATIVE_INFINITY,
    entries,
    orNone(rawMaterial.openingBeyond[week]),
  );
}

/** Sources that keep unlike long are held apart: what waits is of one of them, was there or came, and can wait on. */
function useByOfSources(draft: Draft, rawMaterial: RawMaterial, at: number, week: number, key: string): void {
  const { columns, sets, writer } = draft;
  const waiting = columns.waiting[at]?.[week];
  if (waiting == null) return;
  const parts: Entry[] = [[waiting, 1]];
  for (const sourceAt of rawMaterial.sources) {
    const own = columns.sourceWaiting[sourceAt]?.[week];
    if (own == null) continue;
    parts.push([own, -1]);
    const source = entry(sets.sources, sourceAt, 'sources');
    const name = `${source.id},${sets.year.weeks[week]}`;
    const there: Entry[] = [[own, 1]];
    const before = columns.sourceWaiting[sourceAt]?.[week - 1];
    if (before != null) there.push([before, -1]);
    const taken = columns.produce[sourceAt]?.[week];
    if (taken != null) there.push([taken, -1]);
    writer.row(`waits_of[${name}]`, Number.NEGATIVE_INFINITY, there, 0);
    const good: Entry[] = [[own, 1]];
    for (let came = 0; came <= week; came += 1) {
      const column = columns.produce[sourceAt]?.[came];
      if (column != null && lastUseWeek(source, came) > week) good.push([column, -1]);
    }
    writer.row(`use_by_of[${name}]`, Number.NEGATIVE_INFINITY, good, 0);
  }
  writer.row(`use_by[${key}]`, 0, parts, 0);
}

function thawLimit(
  { sets, columns, writer }: Draft,
  rawMaterial: RawMaterial,
  at: number,
  week: number,
  key: string,
): void {
  const thawed = columns.thawed[at]?.[week];
  if (thawed == null) return;
  const entries: Entry[] = [[thawed, 1]];
  sets.recipes.forEach((recipe, recipeAt) => {
    const batches = begunInWeek(columns.batches[recipeAt], recipe, week);
    const { any, freshOnly } = needOf(recipe, rawMaterial);
    if (batches != null) entries.push([batches, freshOnly - any]);
  });
  writer.row(`thaw_limit[${key}]`, Number.NEGATIVE_INFINITY, entries, 0);
}

/**
 * What is in the freezer was put there and is thawed or thrown away; nothing stays longer than it keeps.
 *
 * `frozen[m,w] <= frozen[m,w-1] + frozen in w - thawed[m,w]` and `frozen[m,w] <= frozen in within its weeks`.
 */
function frozenBalance({ sets, columns, writer }: Draft, rawMaterial: RawMaterial, at: number): void {
  const { freezer } = rawMaterial;
  if (freezer === null) return;
  sets.weekIndexes.forEach((week) => {
    const frozen = columns.frozen[at]?.[week];
    if (frozen == null) return;
    const key = `${rawMaterial.key},${sets.year.weeks[week]}`;
    const entries: Entry[] = [[frozen, 1]];
    const before = columns.frozen[at]?.[week - 1];
    if (before != null) entries.push([before, -1]);
    const frozenIn = columns.frozenIn[at]?.[week];
    if (frozenIn != null) entries.push([frozenIn, -1]);
    const thawed = columns.thawed[at]?.[week];
    if (thawed != null) entries.push([thawed, 1]);
    writer.row(`frozen_balance[${key}]`, Number.NEGATIVE_INFINITY, entries, week === 0 ? freezer.opening : 0);
    if (week < freezer.weeks) return;
    const young: Entry[] = [[frozen, 1]];
    for (let came = week - freezer.weeks + 1; came <= week; came += 1) {
      const column = columns.frozenIn[at]?.[came];
      if (column != null) young.push([column, -1]);
    }
    writer.row(`frozen_use_by[${key}]`, Number.NEGATIVE_INFINITY, young, 0);
  });
}
