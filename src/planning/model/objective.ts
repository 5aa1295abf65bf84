import { cell, entry } from '../lookup.ts';
import { comingReserveShare, isOfComingWeeks } from './coming-weeks.ts';
import { reserveAtEndTimes } from './constraints/wishes/reserve.ts';
import type { Draft } from './draft.ts';
import { firstJarBands } from './first-jars.ts';
import { purchasePrices } from './purchase-prices.ts';
import type { Span } from './spans.ts';
import type { MaybeColumn } from './variables.ts';

/** Names of the objective's terms, from money to the heaviest wish; each is reported in cents. */
export const moneyTerms = ['groceries', 'produce', 'supplies', 'jars', 'lids'] as const;

/**
 * Prices every column. Money comes first as it is spent; then what breaks ties (sessions, keeping, older units); then the
 * wishes, each priced above what serving it could cost (see `wishPrices`).
 */
export function objective(draft: Draft, pins: readonly { readonly missing: number }[]): void {
  const { sets, parameters, spans, rules, prices, columns, writer } = draft;
  const each = (term: string, list: readonly (number | null)[], cents: number) => {
    for (const column of list) if (column !== null) writer.price(term, column, cents);
  };
  for (const week of sets.weekIndexes)
    for (const { term, column, cents } of purchasePrices(draft, week)) writer.price(term, column, cents);

  each('sessions', columns.sessions, rules.sessionCents);
  sets.recipes.forEach(({ setUp }, at) => {
    if (setUp !== undefined) each('set-ups', entry(columns.makes, at, 'makes'), setUp.cents);
  });
  sets.items.forEach((item, at) => {
    const keepingCents = item.keepingCentsPerUnitWeek ?? rules.keepingCentsPerUnitWeek;
    for (const span of entry(spans, at, 'spans'))
      if (span !== null) {
        keepingInSpan(draft, at, span, keepingCents);
        olderInSpan(draft, at, span);
      }
    each('use', entry(columns.shortage, at, 'shortage'), prices.use);
    each(
      'coming weeks',
      entry(columns.shortage, at, 'shortage').filter((_, week) => isOfComingWeeks(sets, at, week)),
      prices.comingWeeks,
    );
  });
  for (const list of [...columns.supplyLeft, ...columns.jarsEmpty, ...columns.lidsLeft])
    each('keeping', list, rules.keepingCentsPerUnitWeek / 20);
  each('use', columns.yearEndShortage, prices.use);
  each('reserve', columns.reserveShortage, prices.reserve);
  each('coming weeks', columns.comingReserveShortage, comingReserveShare * prices.comingWeeks);
  each('reserve', columns.reserveAtEndShortage, reserveAtEndTimes * prices.reserve);
  each(
    'pins',
    pins.map(({ missing }) => missing),
    prices.pinned,
  );
  each('variety', columns.kindsMissing, prices.variety);
  for (const members of columns.shareOver) each('variety', members, prices.variety);
  each('family minimum', columns.familyShortage, prices.group);
  each('group', columns.groupShortage, prices.group);
  parameters.firstJars.forEach((food, at) => {
    firstJarBands.forEach(({ times }, band) => {
      const column = cell(columns.firstJarsMissing, at, band, 'firstJarsMissing');
      if (food !== null && column !== null)
        writer.price('first jars', column, prices.firstJars * food.weight * times);
    });
  });
  columns.gardenLost.forEach((column, at) => {
    const unitsPerLb = entry(parameters.gardenCrops, at, 'gardenCrops').unitsPerLb;
    if (column !== null) writer.price('garden crop', column, prices.gardenUnit * unitsPerLb);
  });
  each(
    'changes',
    columns.changes.map(({ column }) => column),
    rules.changeCentsPerBatch,
  );
  each('cash and hours', columns.freezerOver, prices.pinned);
  each('cash and hours', columns.fundOver, overdraftCentsPerCent);
}

const weeksIn = ({ from, to }: Span) => to - from + 1;

/**
 * Keeping of one item over a span. Where the span only uses, what stands in each of its weeks is what stands at its end
 * and the use still to come; each unit of shortage may lower that by one in every week before. Where something may be
 * bought only the span's end is sure.
 */
function keepingInSpan({ parameters, columns, writer }: Draft, at: number, span: Span, cents: number): void {
  const price = (column: MaybeColumn, each: number) => {
    if (column !== null) writer.price('keeping', column, each);
  };
  const weeks = span.onlyUse ? weeksIn(span) : 1;
  price(cell(columns.stock, at, span.to, 'stock'), cents * weeks);
  if (!span.onlyUse) return;
  const useToCome = entry(parameters.useByWeek, at, 'useByWeek')
    .slice(span.from, span.to + 1)
    .reduce((sum, use, within) => sum + use * within, 0);
  writer.constant('keeping', cents * useToCome);
  price(cell(columns.shortage, at, span.to, 'shortage'), -cents * (weeks - 1));
}

/**
 * Units past best quality of one item over a span. At its end the column counts them. In the weeks before, where the span
 * only uses, those and the opening lots' older units eaten meanwhile still stood; where something may be bought, at least
 * the opening lots' older units did, since oldest is eaten first whatever is bought.
 */
function olderInSpan({ parameters, rules, columns, writer }: Draft, at: number, span: Span): void {
  const cents = rules.olderCentsPerUnitWeek;
  const ofOpening = entry(parameters.opening, at, 'opening').olderByWeek;
  const atEnd = span.onlyUse ? entry(ofOpening, span.to, 'ofOpening') : 0;
  const before = ofOpening.slice(span.from, span.to).reduce((sum, units) => sum + units - atEnd, 0);
  writer.constant('freshness', cents * before);
  const older = cell(columns.older, at, span.to, 'older');
  if (older !== null) writer.price('freshness', older, cents * (span.onlyUse ? weeksIn(span) : 1));
}

/** What whole packs pay for each cent they overdraw the fund: only taken when a decided session could not be supplied. */
const overdraftCentsPerCent = 50;
