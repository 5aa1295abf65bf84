import { entry, orNone } from '../../lookup.ts';
import { stageWeeks } from '../../year/stage-weeks.ts';
import { lastUseWeek } from '../../year/supply-weeks.ts';
import type { Draft } from '../draft.ts';
import type { Entry } from '../model.ts';
import { givenOf, needOf, type RawMaterial } from '../raw-materials.ts';
import { columnIn, termIn, terms } from '../terms.ts';

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
  return [
    ...inflowEntries(draft, rawMaterial, week, 1),
    ...sets.recipes.flatMap((recipe, recipeAt) =>
      termIn(columns.batches, recipeAt, week + stageWeeks(recipe), -needOf(recipe, rawMaterial).any),
    ),
    ...termIn(columns.waiting, at, week - 1, 1),
    ...termIn(columns.thawed, at, week, 1),
    ...termIn(columns.waiting, at, week, -1),
    ...termIn(columns.frozenIn, at, week, -1),
    ...termIn(columns.lost, at, week, -1),
  ];
}

/** What comes in during a week, each unit counting for so much: taken from sources, given by batches. */
function inflowEntries(
  { sets, columns }: Draft,
  rawMaterial: RawMaterial,
  week: number,
  amount: number,
): Entry[] {
  return [
    ...rawMaterial.sources.flatMap((source) => termIn(columns.produce, source, week, amount)),
    ...sets.recipes.flatMap((recipe, recipeAt) =>
      termIn(columns.batches, recipeAt, week + stageWeeks(recipe), amount * givenOf(recipe, rawMaterial)),
    ),
  ];
}

function useBy(draft: Draft, rawMaterial: RawMaterial, at: number, week: number, key: string): void {
  const waiting = columnIn(draft.columns.waiting, at, week);
  if (waiting === null) return;
  const [only] = rawMaterial.sources;
  const stillGood = (came: number) =>
    only === undefined
      ? came > week - rawMaterial.carryWeeks
      : lastUseWeek(entry(draft.sets.sources, only, 'sources'), came) > week;
  const good = draft.sets.weekIndexes.slice(0, week + 1).filter(stillGood);
  draft.writer.row(
    `use_by[${key}]`,
    Number.NEGATIVE_INFINITY,
    [[waiting, 1], ...good.flatMap((came) => inflowEntries(draft, rawMaterial, came, -1))],
    orNone(rawMaterial.openingBeyond[week]),
  );
}

/** Sources that keep unlike long are held apart: what waits is of one of them, was there or came, and can wait on. */
function useByOfSources(draft: Draft, rawMaterial: RawMaterial, at: number, week: number, key: string): void {
  const { columns, sets, writer } = draft;
  const ofSources = rawMaterial.sources.flatMap((sourceAt) => {
    const own = termIn(columns.sourceWaiting, sourceAt, week, 1);
    const source = entry(sets.sources, sourceAt, 'sources');
    const name = `${source.id},${sets.year.weeks[week]}`;
    if (own.length === 0) return [];
    writer.row(
      `waits_of[${name}]`,
      Number.NEGATIVE_INFINITY,
      [
        ...own,
        ...termIn(columns.sourceWaiting, sourceAt, week - 1, -1),
        ...termIn(columns.produce, sourceAt, week, -1),
      ],
      0,
    );
    const good = sets.weekIndexes.slice(0, week + 1).filter((came) => lastUseWeek(source, came) > week);
    writer.row(
      `use_by_of[${name}]`,
      Number.NEGATIVE_INFINITY,
      [...own, ...good.flatMap((came) => termIn(columns.produce, sourceAt, came, -1))],
      0,
    );
    return termIn(columns.sourceWaiting, sourceAt, week, -1);
  });
  writer.row(`use_by[${key}]`, 0, [...termIn(columns.waiting, at, week, 1), ...ofSources], 0);
}

function thawLimit(
  { sets, columns, writer }: Draft,
  rawMaterial: RawMaterial,
  at: number,
  week: number,
  key: string,
): void {
  const thawed = columnIn(columns.thawed, at, week);
  if (thawed === null) return;
  const allowed = sets.recipes.flatMap((recipe, recipeAt) => {
    const { any, freshOnly } = needOf(recipe, rawMaterial);
    return termIn(columns.batches, recipeAt, week + stageWeeks(recipe), freshOnly - any);
  });
  writer.row(`thaw_limit[${key}]`, Number.NEGATIVE_INFINITY, [[thawed, 1], ...allowed], 0);
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
    const frozen = columnIn(columns.frozen, at, week);
    if (frozen === null) return;
    const key = `${rawMaterial.key},${sets.year.weeks[week]}`;
    writer.row(
      `frozen_balance[${key}]`,
      Number.NEGATIVE_INFINITY,
      [
        [frozen, 1],
        ...termIn(columns.frozen, at, week - 1, -1),
        ...termIn(columns.frozenIn, at, week, -1),
        ...termIn(columns.thawed, at, week, 1),
      ],
      week === 0 ? freezer.opening : 0,
    );
    if (week < freezer.weeks) return;
    const young = entry(columns.frozenIn, at, 'frozenIn').slice(week - freezer.weeks + 1, week + 1);
    writer.row(`frozen_use_by[${key}]`, Number.NEGATIVE_INFINITY, [[frozen, 1], ...terms(young, -1)], 0);
  });
}
