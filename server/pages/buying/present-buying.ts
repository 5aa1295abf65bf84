import { counted } from '../../../shared/counting.ts';
import { asCents } from '../../../shared/money.ts';
import { type CalendarDate, weekHolding } from '../../../shared/week.ts';
import type { KitchenHours } from '../../../src/household/kitchen.ts';
import { type FetchAsked, fetchDays } from '../../../src/planning/days/fetch-days.ts';
import type { PlannedPurchase, PlannedWeek } from '../../../src/planning/plan.ts';
import type { StoredPlan } from '../../../src/planning/stored-plan.ts';
import { isLimited } from '../../../src/planning/year/fund-ahead.ts';
import type { BuyingKind, BuyingWeek } from '../../../views/pages/buying/buying-page.tsx';
import { formatMoney, formatWeek } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { sentenceCase } from '../../../views/words/sentences.ts';
import { partOf, spanWords } from '../../words/buying/fetch-words.ts';
import { type PlannedNames, purchaseWords, spendWords } from '../../words/planned-words.ts';
import { presentTick } from '../shared/buying-lines.ts';

/** How many weeks of buying are listed. */
const weeksListed = 5;

/** Where one goes for it: a garden, an orchard, a market, or a store. */
type Trip = 'garden' | 'pick-your-own' | 'market' | 'store';

const trips: readonly { readonly key: Trip; readonly title: string }[] = [
  { key: 'garden', title: 'From the garden' },
  { key: 'pick-your-own', title: 'Pick your own' },
  { key: 'market', title: 'At the market' },
  { key: 'store', title: 'At the store' },
];

/** At the store: what is canned with first, then jars and lids, then the pantry. */
const storeOrder: readonly PlannedPurchase['kind'][] = ['produce', 'supply', 'jars', 'lids', 'item'];

const tripFor = ({ kind, what }: PlannedPurchase, { sources }: PlannedNames): Trip =>
  kind === 'produce' ? (sources.find(({ id }) => id === what)?.kind ?? 'market') : 'store';

/** What to buy in this week and the next four, under the headings of a shopping trip. */
export const presentBuyingWeeks = (
  plan: StoredPlan | null,
  today: CalendarDate,
  hours: KitchenHours,
  ticking: Ticking,
): readonly BuyingWeek[] => {
  if (plan === null) return [];
  const { weekStartsOn } = ticking.names.reading;
  const asked = { plan: plan.plan, year: plan.year, hours, weekStartsOn };
  return comingWeeks(plan, today, ticking.names.reading).map((week) =>
    presentWeek(week, ticking, { ...asked, today }, isLimited(plan.year.fund)),
  );
};

type Ticking = Parameters<typeof presentTick>[2];

export const buyingSummary = (plan: StoredPlan | null, today: CalendarDate, reading: Reading): string => {
  if (plan === null) return 'Once the year is planned, this page says what to buy when.';
  const weeks = comingWeeks(plan, today, reading);
  const spend = weeks.reduce((sum, week) => sum + week.spend, 0);
  const left = weeks.at(-1)?.fundAfter ?? asCents(0);
  const holds = isLimited(plan.year.fund)
    ? `; that leaves ${formatMoney(left, reading)} in the season fund`
    : '';
  return `${spendWords(
    weeks.flatMap(({ purchases }) => purchases),
    asCents(spend),
    reading,
  )} in the next ${counted(weeks.length, 'week')}${holds}.`;
};

const comingWeeks = (
  plan: StoredPlan | null,
  today: CalendarDate,
  { weekStartsOn }: Reading,
): readonly PlannedWeek[] => {
  const thisWeek = weekHolding(today, weekStartsOn);
  return (plan?.plan.weeks ?? []).filter(({ week }) => week >= thisWeek).slice(0, weeksListed);
};

type FetchToday = FetchAsked & { readonly today: CalendarDate };

const presentWeek = (
  week: PlannedWeek,
  ticking: Ticking,
  asked: FetchToday,
  limited: boolean,
): BuyingWeek => ({
  key: week.week,
  title: sentenceCase(formatWeek(week.week, ticking.names.reading)),
  total: spendWords(week.purchases, week.spend, ticking.names.reading),
  fundAfter: !limited ? null : `leaving ${formatMoney(week.fundAfter, ticking.names.reading)} in the fund`,
  kinds: trips.flatMap(({ key, title }): BuyingKind[] => {
    const bought = week.purchases
      .filter((purchase) => tripFor(purchase, ticking.names) === key)
      .toSorted((one, other) => storeOrder.indexOf(one.kind) - storeOrder.indexOf(other.kind));
    return bought.length === 0
      ? []
      : [
          {
            key,
            title,
            lines: bought.map((purchase, place) => presentLine(purchase, place, week, asked, ticking)),
          },
        ];
  }),
});

const presentLine = (
  purchase: PlannedPurchase,
  place: number,
  week: PlannedWeek,
  asked: FetchToday,
  ticking: Ticking,
) => {
  const { names } = ticking;
  const { what, amount, packs, about } = purchaseWords(names, purchase);
  return {
    key: `${purchase.what}-${place}`,
    what,
    days: daysWords(purchase, week, asked, names),
    quantity: amount,
    packs: packs || about,
    cost: purchase.cost === 0 ? 'own' : formatMoney(purchase.cost, names.reading),
    tick: presentTick(purchase, week.week, ticking),
  };
};

/** `Aug 20 or Aug 21`: on which days something that would not keep is fetched; null for what can wait. */
const daysWords = (
  purchase: PlannedPurchase,
  week: PlannedWeek,
  asked: FetchToday,
  names: PlannedNames,
): string | null => {
  const ways = fetchDays(purchase, week, asked);
  const [first] = ways;
  if (first.notBefore === null || first.forDay === null) return null;
  const quantity = (part: number) => purchaseWords(names, partOf(purchase, part)).amount;
  return ways
    .map((fetch) =>
      ways.length === 1
        ? spanWords(fetch, asked.today, names.reading)
        : `${quantity(fetch.quantity)} ${spanWords(fetch, asked.today, names.reading)}`,
    )
    .join('; ');
};
