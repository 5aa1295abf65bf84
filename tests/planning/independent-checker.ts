import type { Plan } from '../../src/planning/plan.ts';
import type { PlanningYear } from '../../src/planning/planning-year.ts';
import { checkByProducts } from './by-products-checked.ts';
import { checkFirstJars } from './first-jars-checked.ts';
import { checkKeptCold } from './kept-cold-checked.ts';

/**
 * Checks a printed plan against the household's year from first principles, sharing no code with the model: it adds up
 * hours, loads, jars, money and stock as a person with the printed page and a pencil would. Returns what is wrong, in
 * words; an empty list is a plan that can be carried out as printed.
 */
export function checkPlan(plan: Plan, year: PlanningYear): string[] {
  return [
    ...checkShape(plan, year),
    ...checkWhatIsMade(plan, year),
    ...checkStages(plan, year),
    ...checkProduce(plan, year),
    ...checkByProducts(plan, year),
    ...checkKeptCold(plan, year),
    ...checkHours(plan, year),
    ...checkAway(plan, year),
    ...checkSkipped(plan, year),
    ...checkLoads(plan, year),
    ...checkMoney(plan, year),
    ...checkSupplies(plan, year),
    ...checkJarsAndLids(plan, year),
    ...checkUse(plan, year),
    ...checkReserve(plan, year),
    ...checkPins(plan, year),
    ...checkFirstJars(plan, year),
    ...checkLeftOver(plan, year),
    ...checkProof(plan),
  ];
}

/** Where nobody is at home all week, nothing is bought, picked or canned, unless that week was given sessions of its own. */
function checkAway(plan: Plan, year: PlanningYear): string[] {
  return plan.weeks.flatMap(({ week, purchases, sessions }, at) => {
    if (year.time.awayByWeek?.[at] !== true) return [];
    return [
      ...purchases.map(({ what }) => `${week}: ${what} is bought while nobody is at home`),
      ...sessions.map(({ recipe }) => `${week}: ${recipe} is canned while nobody is at home`),
    ];
  });
}

/** What somebody said is not to be bought in a week is not on that week's list. */
function checkSkipped(plan: Plan, year: PlanningYear): string[] {
  return plan.weeks.flatMap(({ week, purchases }) =>
    purchases
      .filter(({ kind, what }) =>
        (year.skipped ?? []).some((line) => line.week === week && line.kind === kind && line.what === what),
      )
      .map(({ what }) => `${week}: ${what} is bought, and it was said not to be`),
  );
}

type Session = Plan['weeks'][number]['sessions'][number];

const near = (one: number, other: number, tolerance: number) => Math.abs(one - other) <= tolerance;

/** The way of making that a printed session means: same recipe, same jar. */
function wayOf(year: PlanningYear, session: Session) {
  return year.recipes.find(
    ({ id, jarKind }) => id === session.recipe && jarKind === (session.jars[0]?.kind ?? null),
  );
}

/** Weeks between the week in which a batch is begun and that of its canner load. */
const weeksBefore = (way: PlanningYear['recipes'][number]) => way.stages?.weeks ?? 0;

/** Sessions of the whole plan whose batches take their produce and supplies in a week: those begun in it. */
function sessionsBegunIn(plan: Plan, year: PlanningYear, at: number) {
  return plan.weeks.flatMap(({ sessions }, loadedAt) =>
    sessions.flatMap((session) => {
      const way = wayOf(year, session);
      return way !== undefined && session.begun === undefined && loadedAt - weeksBefore(way) === at
        ? [{ session, way }]
        : [];
    }),
  );
}

/**
 * Nothing is loaded before its stages allow it: begun within the plan, in a week the stages may be done in, as printed;
 * batches begun already are loaded once, in a week that may be, or it is said that they are not.
 */
function checkStages(plan: Plan, year: PlanningYear): string[] {
  const wrong: string[] = [];
  plan.weeks.forEach(({ week, sessions, stageWork = [] }, at) => {
    for (const session of sessions) {
      const way = wayOf(year, session);
      const what = `${week} ${session.recipe}`;
      if (way === undefined) continue;
      if (session.begun !== undefined) {
        const begun = (year.begun ?? []).find(({ id }) => id === session.begun?.id);
        if (begun?.recipeId !== session.recipe) wrong.push(`${what}: no such batches are begun`);
        else if (begun.mayLoadByWeek[at] !== true)
          wrong.push(`${what}: begun ${begun.begunOn}, not to be loaded now`);
        continue;
      }
      if (way.stages === undefined) {
        if (session.begin !== undefined) wrong.push(`${what}: begun before, and it has no stages`);
        continue;
      }
      const begunAt = at - way.stages.weeks;
      if (begunAt < 0) wrong.push(`${what}: begun before the plan begins`);
      if (way.stages.possibleByWeek?.[at] === false) wrong.push(`${what}: its stages cannot be done`);
      if (session.begin?.week !== year.weeks[begunAt])
        wrong.push(`${what}: begun in ${session.begin?.week} printed, ${year.weeks[begunAt]} counted back`);
    }
    const printed = sum(stageWork.map(({ minutes }) => minutes));
    const counted = stageMinutes(plan, year, at);
    if (!near(printed, counted, 1e-6))
      wrong.push(`${week}: ${printed} minutes for later loads printed, ${counted} added up`);
  });
  for (const begun of year.begun ?? []) {
    const loaded = sum(
      plan.weeks.flatMap(({ sessions }) =>
        sessions.filter((session) => session.begun?.id === begun.id).map(({ batches }) => batches),
      ),
    );
    const said = sum(
      plan.gaveWay
        .filter(({ what }) => what === `${begun.recipeId} begun ${begun.begunOn}`)
        .map(({ amount }) => amount),
    );
    if (loaded + said !== begun.batches)
      wrong.push(`${begun.id}: ${begun.batches} begun, ${loaded} loaded, ${said} said to be left`);
  }
  return wrong;
}

/** Hands-on minutes in a week on batches loaded in a later one. */
function stageMinutes(plan: Plan, year: PlanningYear, at: number): number {
  return sum(
    plan.weeks.slice(at + 1).flatMap(({ sessions }, later) =>
      sessions.map((session) => {
        const stages = session.begun === undefined ? wayOf(year, session)?.stages : undefined;
        const weekOfBatch = stages === undefined ? -1 : stages.weeks - (later + 1);
        return weekOfBatch < 0 ? 0 : session.batches * (stages?.handsOnByWeek[weekOfBatch] ?? 0);
      }),
    ),
  );
}

function checkShape(plan: Plan, year: PlanningYear): string[] {
  const wrong: string[] = [];
  if (plan.asOf !== year.asOf) wrong.push(`plan stands on ${plan.asOf}, the year on ${year.asOf}`);
  if (plan.horizonWeeks !== year.weeks.length || plan.weeks.length !== year.weeks.length)
    wrong.push(`plan has ${plan.weeks.length} weeks, the year ${year.weeks.length}`);
  plan.weeks.forEach(({ week }, at) => {
    if (week !== year.weeks[at]) wrong.push(`week ${at} is ${week}, expected ${year.weeks[at]}`);
  });
  return wrong;
}

function checkWhatIsMade(plan: Plan, year: PlanningYear): string[] {
  return plan.weeks.flatMap(({ week, sessions }, at) =>
    sessions.flatMap((session) => {
      const wrong: string[] = [];
      const way = wayOf(year, session);
      const what = `${week} ${session.recipe}`;
      if (way === undefined) return [`${what}: no such recipe and jar`];
      if (!Number.isInteger(session.batches) || session.batches < 1)
        wrong.push(`${what}: ${session.batches} is not a number of whole batches`);
      if (session.begun === undefined && way.allowedByWeek !== null && way.allowedByWeek[at] !== true)
        wrong.push(`${what}: not allowed in this week`);
      if (
        year.kept.some(
          (kept) => kept.recipeId === way.id && kept.week === week && kept.decision === 'ruled-out',
        )
      )
        wrong.push(`${what}: ruled out by the person`);
      const canner = year.canners.find(({ id }) => id === way.processing?.cannerId);
      if (way.processing !== null && canner === undefined)
        wrong.push(`${what}: the canner is not in this kitchen`);
      if (way.processing?.lowAcid === true && canner?.method !== 'pressure')
        wrong.push(`${what}: low-acid food without a pressure canner`);
      if (session.canner !== (way.processing?.cannerId ?? null))
        wrong.push(`${what}: canner ${session.canner}`);
      if (!near(session.units, session.batches * way.yieldLowUnits, 1e-6))
        wrong.push(`${what}: units ${session.units}`);
      const jars = session.jars.reduce((sum, { count }) => sum + count, 0);
      if (way.jarKind !== null && !near(jars, session.batches * way.yieldHighJars, 1e-6))
        wrong.push(`${what}: jars ${jars}`);
      return wrong;
    }),
  );
}

/** Crops and by-products: in, used, waiting, frozen and lost add up week by week, and nothing is kept longer than it keeps. */
function checkProduce(plan: Plan, year: PlanningYear): string[] {
  const wrong: string[] = [];
  for (const [at, { week, purchases }] of plan.weeks.entries())
    for (const source of year.sources) {
      const taken = sum(
        purchases
          .filter(({ kind, what }) => kind === 'produce' && what === source.id)
          .map(({ quantity }) => quantity),
      );
      if (taken > (source.lbByWeek[at] ?? 0) + 1e-6)
        wrong.push(`${week} ${source.id}: ${taken} lb, the source gives ${source.lbByWeek[at]}`);
    }
  const crops = [
    ...new Set(year.recipes.flatMap(({ produce }) => produce.map(({ crop }) => crop as string))),
  ];
  const byProducts = [
    ...new Set(year.recipes.flatMap(({ uses }) => uses.map(({ materialId }) => materialId))),
  ];
  for (const key of [...crops, ...byProducts])
    wrong.push(...checkMaterial(plan, year, key, crops.includes(key)));
  return [...wrong, ...checkFreezerAndCrocks(plan, year)];
}

const sum = (list: readonly number[]) => list.reduce((total, amount) => total + amount, 0);

/** Raw material in the kitchen: how much, and the last week in which it may still be used. */
interface Standing {
  left: number;
  readonly until: number;
}

/** The last week in which what a source gives in a week may be used, by days where they are known. */
const usableUntil = (source: PlanningYear['sources'][number], at: number): number =>
  source.lastUseWeekByWeek?.[at] ?? at + Math.floor(source.useByDays / 7);

function checkMaterial(plan: Plan, year: PlanningYear, key: string, isCrop: boolean): string[] {
  const wrong: string[] = [];
  const material = year.materials.find(({ id }) => id === key);
  const frozenCrop = year.freezable?.find(({ crop }) => crop === key);
  const sources = isCrop ? year.sources.filter(({ crop }) => crop === key) : [];
  const keepsWeeks = Math.floor((material?.keepsDaysCold ?? 0) / 7);
  const frozenMonths = isCrop
    ? (frozenCrop?.keepsMonthsFrozen ?? null)
    : (material?.keepsMonthsFrozen ?? null);
  const frozenWeeks = frozenMonths === null ? 0 : Math.floor((frozenMonths * 365.25) / 12 / 7);
  let waitingBefore = isCrop ? 0 : (material?.opening ?? 0);
  let frozenBefore = frozenCrop?.openingLb ?? 0;
  const standing: Standing[] = isCrop
    ? []
    : (material?.openingLasts?.map(({ quantity, weeks }) => ({ left: quantity, until: weeks })) ?? [
        { left: waitingBefore, until: keepsWeeks },
      ]);
  const frozenIn: number[] = [];
  const slack = 0.05;
  plan.weeks.forEach(({ week, purchases, materials }, at) => {
    const move = materials.find(({ what }) => what === key);
    const { freeze = 0, thaw = 0, waiting = 0, frozen = 0, lost = 0 } = move ?? {};
    const takenFrom = (source: PlanningYear['sources'][number]) =>
      sum(
        purchases
          .filter(({ kind, what }) => kind === 'produce' && what === source.id)
          .map(({ quantity }) => quantity),
      );
    const taken = sum(sources.map(takenFrom));
    const ofBatches = (amount: (way: PlanningYear['recipes'][number]) => number) =>
      sum(sessionsBegunIn(plan, year, at).map(({ session, way }) => session.batches * amount(way)));
    const given = ofBatches(({ gives }) =>
      sum(gives.filter(({ materialId }) => materialId === key).map(({ quantity }) => quantity)),
    );
    const used = ofBatches(
      ({ produce, uses }) =>
        sum(produce.filter(({ crop }) => crop === key).map(({ lb }) => lb)) +
        sum(uses.filter(({ materialId }) => materialId === key).map(({ quantity }) => quantity)),
    );
    const freshOnly = ofBatches(({ produce }) =>
      sum(produce.filter(({ crop, mayBeFrozen }) => crop === key && !mayBeFrozen).map(({ lb }) => lb)),
    );
    // What is at hand costs nothing and stands on no list: as much of it is taken as the week is short of.
    const atHand = sum(
      sources.filter(({ isAtHand }) => isAtHand === true).map(({ lbByWeek }) => lbByWeek[at] ?? 0),
    );
    const went = used + freeze + waiting + lost;
    const came = taken + given + waitingBefore + thaw;
    const fromHand = Math.min(atHand, Math.max(0, went - came));
    if (!near(came + fromHand, went, slack))
      wrong.push(
        `${week} ${key}: ${taken} + ${given} + ${waitingBefore} + ${thaw} came and ${atHand} at hand, ${used} + ${freeze} + ${waiting} + ${lost} went`,
      );
    // The oldest first: what nobody used by its last day is gone.
    for (const source of sources)
      standing.push({
        left: source.isAtHand === true ? (source.lbByWeek[at] ?? 0) : takenFrom(source),
        until: usableUntil(source, at),
      });
    if (given > 0) standing.push({ left: given, until: at + keepsWeeks });
    let toTake = used + freeze - thaw;
    for (const one of standing.filter(({ until }) => until >= at).sort((a, b) => a.until - b.until)) {
      const taking = Math.min(one.left, Math.max(0, toTake));
      one.left -= taking;
      toTake -= taking;
    }
    if (toTake > slack) wrong.push(`${week} ${key}: ${toTake} used that could not wait for it`);
    const canWait = sum(standing.filter(({ until }) => until > at).map(({ left }) => left));
    if (waiting > canWait + slack)
      wrong.push(`${week} ${key}: ${waiting} waits, ${canWait} of what came can wait for the week after`);
    frozenIn.push(freeze + (at === 0 ? frozenBefore : 0));
    if (thaw > used - freshOnly + slack)
      wrong.push(`${week} ${key}: ${thaw} thawed for recipes that want it fresh`);
    if (frozen > frozenBefore + freeze - thaw + slack)
      wrong.push(`${week} ${key}: ${frozen} frozen, less went in`);
    if ((freeze > 0 || thaw > 0) && frozenMonths === null)
      wrong.push(`${week} ${key}: frozen, and it may not be`);
    const frozenLately = sum(frozenIn.slice(Math.max(0, at - frozenWeeks + 1), at + 1));
    if (frozen > frozenLately + slack)
      wrong.push(`${week} ${key}: ${frozen} frozen, ${frozenLately} within its months`);
    waitingBefore = waiting;
    frozenBefore = frozen;
  });
  return wrong;
}

function checkFreezerAndCrocks(plan: Plan, year: PlanningYear): string[] {
  const quartsOf = (what: string) =>
    year.freezable?.find(({ crop }) => crop === what)?.quartsPerLb ??
    year.materials.find(({ id }) => id === what)?.quartsPerUnit ??
    0;
  const quartsBegun = sum(
    (year.begun ?? []).map(({ recipeId, batches }) => {
      const crock = year.recipes.find(({ id }) => id === recipeId)?.crock ?? null;
      return batches * (crock?.quarts ?? 0);
    }),
  );
  return plan.weeks.flatMap(({ week, materials }, at) => {
    const held = sum(materials.map(({ what, frozen }) => frozen * quartsOf(what)));
    const takenIn = sum(materials.map(({ what, freeze }) => freeze * quartsOf(what)));
    const inCrocks = sum(
      plan.weeks.flatMap(({ sessions }, loadedAt) =>
        sessions.map((session) => {
          const way = wayOf(year, session);
          const crock = way?.crock ?? null;
          if (way === undefined || crock === null) return 0;
          const begunAt = loadedAt - weeksBefore(way);
          const stands =
            session.begun === undefined ? begunAt <= at && at < begunAt + crock.weeks : at <= loadedAt;
          return stands ? crock.quarts * session.batches : 0;
        }),
      ),
    );
    const freezesItems = year.items.some(({ freezerQuartsPerUnit }) => freezerQuartsPerUnit !== undefined);
    return [
      ...(held > year.storage.freezerQuarts + 0.1 && !freezesItems
        ? [`${week}: ${held} quarts in a freezer of ${year.storage.freezerQuarts}`]
        : []),
      ...(takenIn > 7 * year.storage.freezerQuartsPerDay + 0.1
        ? [`${week}: ${takenIn} quarts frozen in a week`]
        : []),
      ...(inCrocks >
      Math.max(year.storage.crockQuarts - (year.storage.crockQuartsTakenByWeek?.[at] ?? 0), quartsBegun) +
        1e-6
        ? [`${week}: ${inCrocks} quarts in crocks of ${year.storage.crockQuarts}`]
        : []),
    ];
  });
}

/** Fills load after load; a last jar that would be alone in one stays out. */
export function loadsByHand(jars: number, fits: number): number {
  let [left, loads] = [Math.ceil(jars - 1e-9), 0];
  while (left > 1 || (left === 1 && (loads === 0 || fits === 1))) {
    left -= fits;
    loads += 1;
  }
  return loads;
}

const asideByHand = (jars: number, fits: number): number =>
  Math.max(0, Math.ceil(jars - 1e-9) - loadsByHand(jars, fits) * fits);

function checkHours(plan: Plan, year: PlanningYear): string[] {
  return plan.weeks.flatMap((planned, at) => {
    const wrong: string[] = [];
    let minutes = planned.kitchenSessions * year.time.setUpMinutes + stageMinutes(plan, year, at);
    for (const session of planned.sessions) {
      const way = wayOf(year, session);
      if (way === undefined) continue;
      const loads = way.processing === null ? 0 : loadsByHand(way.yieldHighJars, way.processing.jarsPerLoad);
      const handsOn = way.stages === undefined ? way.handsOnMinutes : (way.stages.handsOnByWeek.at(-1) ?? 0);
      const work = session.batches * (handsOn + loads * (way.processing?.attendedMinutes ?? 0));
      if (!near(work, session.handsOnMinutes, 1e-6))
        wrong.push(
          `${planned.week} ${session.recipe}: ${session.handsOnMinutes} minutes printed, ${work} added up`,
        );
      minutes += work;
    }
    if (!near(minutes, planned.kitchenMinutes, 1e-6))
      wrong.push(`${planned.week}: ${planned.kitchenMinutes} kitchen minutes printed, ${minutes} added up`);
    const sessionsAllowed = year.time.maxSessionsByWeek[at] ?? 0;
    if (!Number.isInteger(planned.kitchenSessions) || planned.kitchenSessions > sessionsAllowed)
      wrong.push(`${planned.week}: ${planned.kitchenSessions} sessions, ${sessionsAllowed} allowed`);
    // Setting up is done once by everybody; what is left of a session counts for each pair of hands there.
    const left = Math.max(0, (year.time.hoursPerSessionByWeek[at] ?? 0) * 60 - year.time.setUpMinutes);
    const hands = year.time.handsByWeek?.[at] ?? 1;
    const room = planned.kitchenSessions * (year.time.setUpMinutes + left * hands);
    if (minutes > room + 1e-6)
      wrong.push(`${planned.week}: ${minutes} minutes of work in ${room} minutes of sessions`);
    return wrong;
  });
}

function checkLoads(plan: Plan, year: PlanningYear): string[] {
  return plan.weeks.flatMap((planned, at) => {
    const wrong: string[] = [];
    for (const canner of year.canners) {
      let busy = 0;
      for (const session of planned.sessions) {
        const processing = wayOf(year, session)?.processing ?? null;
        if (processing?.cannerId !== canner.id) continue;
        const ofBatch = wayOf(year, session)?.yieldHighJars ?? 0;
        const jars = (ofBatch - asideByHand(ofBatch, processing.jarsPerLoad)) * session.batches;
        if (jars > session.loads * processing.jarsPerLoad)
          wrong.push(
            `${planned.week} ${session.recipe}: ${jars} jars in ${session.loads} loads of ${processing.jarsPerLoad}`,
          );
        busy += session.loads * processing.loadMinutes;
      }
      const room = planned.kitchenSessions * (year.time.hoursPerSessionByWeek[at] ?? 0) * 60;
      if (busy > room + 1e-6) wrong.push(`${planned.week} ${canner.id}: ${busy} minutes of loads in ${room}`);
    }
    for (const session of planned.sessions)
      if (wayOf(year, session)?.processing === null && session.loads !== 0)
        wrong.push(`${planned.week} ${session.recipe}: loads for what is not canned`);
    return wrong;
  });
}

function checkMoney(plan: Plan, year: PlanningYear): string[] {
  const wrong: string[] = [];
  let fund: number = year.fund.opening;
  plan.weeks.forEach((planned, at) => {
    for (const line of planned.purchases) {
      const price = priceOf(year, line, at);
      if (price === null || !near(line.cost, price, 0.5 + 1e-9) || !Number.isInteger(line.cost))
        wrong.push(
          `${planned.week} ${line.kind} ${line.what}: ${line.cost} cents printed, ${price} by the price list`,
        );
    }
    const spend = planned.purchases.reduce((sum, { cost }) => sum + cost, 0);
    if (spend !== planned.spend)
      wrong.push(`${planned.week}: spends ${planned.spend} printed, ${spend} added up`);
    fund += (year.fund.setAsideByWeek[at] ?? 0) - spend;
    if (fund !== planned.fundAfter)
      wrong.push(`${planned.week}: fund ${planned.fundAfter} printed, ${fund} added up`);
    const said = plan.gaveWay.some(({ rung, what }) => rung === 'cash and hours' && what === planned.week);
    if (fund < 0 && !said) wrong.push(`${planned.week}: fund at ${fund} cents and not said`);
  });
  return wrong;
}

function priceOf(
  year: PlanningYear,
  line: Plan['weeks'][number]['purchases'][number],
  week: number,
): number | null {
  const count = line.packs?.count ?? 0;
  switch (line.kind) {
    case 'item': {
      const pack = year.items
        .find(({ id }) => id === line.what)
        ?.packs.find(({ id }) => id === line.packs?.id);
      if (pack === undefined || !near(line.quantity, count * pack.units, 1e-6)) return null;
      return count * (pack.priceByWeek[week] ?? Number.NaN);
    }
    case 'produce': {
      const source = year.sources.find(({ id }) => id === line.what);
      return source === undefined ? null : line.quantity * (source.priceCentsPerLbByWeek[week] ?? Number.NaN);
    }
    case 'supply': {
      const supply = year.supplies.find(({ id }) => id === line.what);
      return supply === undefined ? null : count * supply.packPrice;
    }
    case 'jars': {
      const holding = year.jars.find(({ kind }) => kind === line.what);
      return holding === undefined ? null : count * holding.packPrice;
    }
    case 'lids': {
      const holding = year.lids.find(({ mouth }) => mouth === line.what);
      return holding === undefined ? null : count * holding.boxPrice;
    }
  }
}

/**
 * Supplies are in the house before the week in which a batch is begun; in the first week they may be bought in it. What spoils is
 * bought in that very week, and what is over of it serves no other.
 */
function checkSupplies(plan: Plan, year: PlanningYear): string[] {
  return year.supplies.flatMap((supply) => {
    const wrong: string[] = [];
    const usedIn = (at: number) =>
      sum(
        sessionsBegunIn(plan, year, at).map(({ session, way }) => {
          const needs = way.supplies.filter(({ supplyId }) => supplyId === supply.id);
          return session.batches * sum(needs.map(({ quantity }) => quantity));
        }),
      );
    if (supply.freshDays !== undefined) {
      let onHand = supply.onHand;
      plan.weeks.forEach(({ week, purchases }, at) => {
        const fresh = sum(
          purchases
            .filter(({ kind, what }) => kind === 'supply' && what === supply.id)
            .map(({ quantity }) => quantity),
        );
        const used = usedIn(at);
        if (fresh > 0 && used === 0)
          wrong.push(`${week} ${supply.id}: bought fresh, and nothing is made of it`);
        const missing = Math.max(0, used - fresh);
        if (missing > onHand + 1e-4)
          wrong.push(
            `${week} ${supply.id}: ${used} used, ${fresh} bought fresh that week, ${onHand} on hand`,
          );
        onHand -= Math.min(onHand, missing);
      });
      return wrong;
    }
    let bought = 0;
    let boughtBefore = 0;
    let used = 0;
    plan.weeks.forEach(({ week, purchases }, at) => {
      bought += purchases
        .filter(({ kind, what }) => kind === 'supply' && what === supply.id)
        .reduce((sum, { quantity }) => sum + quantity, 0);
      used += usedIn(at);
      const inHouse = supply.onHand + (at === 0 ? bought : boughtBefore);
      if (used > inHouse + 1e-4) wrong.push(`${week} ${supply.id}: ${used} used, ${inHouse} in the house`);
      boughtBefore = bought;
    });
    return wrong;
  });
}

/** Jars filled so far are never more than were empty, bought before, or could have been emptied by then at the very most. */
function checkJarsAndLids(plan: Plan, year: PlanningYear): string[] {
  const wrong: string[] = plan.weeks.flatMap(({ week, sessions }) =>
    sessions.flatMap(({ recipe, jars }) =>
      jars.flatMap(({ kind, count }) => [
        ...(year.jars.some((holding) => holding.kind === kind)
          ? []
          : [`${week} ${recipe}: ${count} ${kind} jars, and nobody said how many there are`]),
        ...(year.lids.some(({ mouth }) => kind.endsWith(`/${mouth}`))
          ? []
          : [`${week} ${recipe}: ${count} ${kind} jars, and no lid for them is known`]),
      ]),
    ),
  );
  for (const holding of year.jars) {
    let boughtBefore = 0;
    let bought = 0;
    let filled = 0;
    plan.weeks.forEach(({ week, purchases, sessions }, at) => {
      bought += purchases
        .filter(({ kind, what }) => kind === 'jars' && what === holding.kind)
        .reduce((sum, { quantity }) => sum + quantity, 0);
      filled += sessions.reduce(
        (sum, { jars }) =>
          sum + jars.filter(({ kind }) => kind === holding.kind).reduce((n, { count }) => n + count, 0),
        0,
      );
      const eatenAtMost = year.items.reduce((sum, item) => {
        const ofKind =
          item.openingLots.some(({ jarKind }) => jarKind === holding.kind) || item.jarKind === holding.kind;
        return ofKind ? sum + item.useByWeek.slice(0, at).reduce((units, use) => units + use, 0) : sum;
      }, 0);
      const hadAtMost = holding.empty + (at === 0 ? bought : boughtBefore) + eatenAtMost;
      if (filled > hadAtMost + 1e-4)
        wrong.push(`${week} ${holding.kind}: ${filled} jars filled, ${hadAtMost} at most there`);
      boughtBefore = bought;
    });
  }
  for (const holding of year.lids) {
    let boughtBefore = 0;
    let bought = 0;
    let used = 0;
    plan.weeks.forEach(({ week, purchases, sessions }, at) => {
      bought += purchases
        .filter(({ kind, what }) => kind === 'lids' && what === holding.mouth)
        .reduce((sum, { quantity }) => sum + quantity, 0);
      used += sessions.reduce(
        (sum, { jars }) =>
          sum +
          jars
            .filter(({ kind }) => kind.endsWith(`/${holding.mouth}`))
            .reduce((n, { count }) => n + count, 0),
        0,
      );
      const had = holding.onHand + (at === 0 ? bought : boughtBefore);
      if (used > had + 1e-4) wrong.push(`${week} ${holding.mouth} lids: ${used} used, ${had} in the house`);
      boughtBefore = bought;
    });
  }
  return wrong;
}

/** What is kept for an emergency of an item, and what of it stands when the year begins: so many units are there whatever happens. */
const emergencyOf = ({ emergencyUnits = 0, openingLots }: PlanningYear['items'][number]) => ({
  wanted: emergencyUnits,
  standing: Math.min(emergencyUnits, sum(openingLots.map(({ units }) => units))),
});

/**
 * Expected use of one item played against what the printed plan brings: what is missed, and what stands at each week's end. Nobody
 * eats below what stands for an emergency.
 */
function shelfOf(plan: Plan, year: PlanningYear, item: PlanningYear['items'][number]) {
  const floor = emergencyOf(item).standing;
  let ready = 0;
  let missed = 0;
  const standing = plan.weeks.map(({ purchases }, at) => {
    const weekKey = year.weeks[at] ?? '';
    ready += item.openingLots
      .filter(({ readyFrom }) => (at === 0 ? readyFrom <= weekKey : readyFrom === weekKey))
      .reduce((sum, { units }) => sum + units, 0);
    plan.weeks.forEach(({ sessions }, madeAt) => {
      for (const session of sessions) {
        const way = wayOf(year, session);
        if (way?.itemId === item.id && madeAt + way.readyAfterWeeks === at)
          ready += session.batches * way.yieldLowUnits;
      }
    });
    ready += purchases
      .filter(({ kind, what }) => kind === 'item' && what === item.id)
      .reduce((sum, { quantity }) => sum + quantity, 0);
    const use = item.useByWeek[at] ?? 0;
    const toCome = sum(
      item.openingLots.filter(({ readyFrom }) => readyFrom > weekKey).map(({ units }) => units),
    );
    const mayBeEaten = Math.max(0, Math.min(ready, ready + toCome - floor));
    const eaten = Math.min(use, mayBeEaten);
    missed += use - eaten;
    ready -= eaten;
    return ready;
  });
  return { missed, standing, atEnd: ready };
}

const saidOf = (plan: Plan, of: string, id: string) =>
  sum(plan.gaveWay.filter(({ rung, what }) => rung === of && what === id).map(({ amount }) => amount));

/** Use that the shelf does not serve, and a year's end that hands over too little, are said and said in full. */
function checkUse(plan: Plan, year: PlanningYear): string[] {
  return year.items.flatMap((item) => {
    const { missed, atEnd } = shelfOf(plan, year, item);
    const emergency = emergencyOf(item).wanted;
    const short = missed + Math.max(0, item.yearEndUnits + emergency - atEnd);
    const said = saidOf(plan, 'use', item.id);
    const beside = emergency > 0 ? ` beside ${emergency} for an emergency` : '';
    return near(short, said, 0.06)
      ? []
      : [`${item.id}: ${short} units of use not served${beside}, ${said} said`];
  });
}

/** The reserve of what is bought stands at the end of every week from the first at home, that of all else at least at the year's, or it is said that it does not. */
function checkReserve(plan: Plan, year: PlanningYear): string[] {
  return year.items.flatMap((item) => {
    const emergency = emergencyOf(item);
    const lacking = emergency.wanted - emergency.standing;
    if (item.reserveUnits + lacking <= 0) return [];
    const { standing, atEnd } = shelfOf(plan, year, item);
    const isBought = item.packs.length > 0;
    const firstAtHome = year.weeks.findIndex((_, week) => year.time.awayByWeek?.[week] !== true);
    const handedOver = item.yearEndUnits + emergency.wanted;
    const missingAtEnd = Math.max(0, handedOver - atEnd);
    const held = item.reserveUnits + emergency.wanted;
    const short = Math.max(
      0,
      item.reserveUnits + handedOver - atEnd - missingAtEnd,
      ...(isBought ? standing.slice(Math.max(0, firstAtHome), -1).map((units) => held - units) : []),
    );
    const said = saidOf(plan, 'reserve', item.id);
    const isSaid = isBought ? near(short, said, 0.06) : short <= said + 0.06;
    return isSaid ? [] : [`${item.id}: ${short} units of reserve missing, ${said} said`];
  });
}

/** What a person pinned is made in its week, or it is said that it is not. */
function checkPins(plan: Plan, year: PlanningYear): string[] {
  return year.kept.flatMap((kept) => {
    if (kept.decision !== 'pinned' || !year.weeks.includes(kept.week)) return [];
    const planned = sum(
      (plan.weeks.find(({ week }) => week === kept.week)?.sessions ?? [])
        .filter(({ recipe }) => recipe === kept.recipeId)
        .map(({ batches }) => batches),
    );
    const said = sum(
      plan.gaveWay
        .filter(({ batches }) => batches?.recipe === kept.recipeId && batches.pinnedIn === kept.week)
        .map(({ amount }) => amount),
    );
    return planned + said >= kept.batches
      ? []
      : [
          `${kept.week} ${kept.recipeId}: ${kept.batches} pinned, ${planned} planned, ${said} said to be left`,
        ];
  });
}

/** What the garden gives and is not fetched is said, to the pound, in the week in which it is ripe. */
function checkLeftOver(plan: Plan, year: PlanningYear): string[] {
  return year.sources
    .filter(({ kind }) => kind === 'garden')
    .flatMap((source) =>
      plan.weeks.flatMap(({ week, purchases, leftOver = [] }, at) => {
        const fetched = sum(
          purchases
            .filter(({ kind, what }) => kind === 'produce' && what === source.id)
            .map(({ quantity }) => quantity),
        );
        const left = (source.lbByWeek[at] ?? 0) - fetched;
        const said = sum(leftOver.filter((line) => line.source === source.id).map(({ lb }) => lb));
        return near(left, said, 0.51) ? [] : [`${week} ${source.id}: ${left} lb left, ${said} said`];
      }),
    );
}

function checkProof(plan: Plan): string[] {
  const wrong: string[] = [];
  const { total = Number.NaN, ...terms } = plan.objective;
  const sum = Object.values(terms).reduce((cents, term) => cents + term, 0);
  if (!near(total, sum, 0.01)) wrong.push(`objective ${total} printed, its terms add up to ${sum}`);
  if (plan.bound > total + 0.01) wrong.push(`bound ${plan.bound} above the objective ${total}`);
  const gap = total > 0 ? (total - plan.bound) / total : 0;
  if (!near(gap, plan.gap, 1e-6)) wrong.push(`gap ${plan.gap} printed, ${gap} from objective and bound`);
  return wrong;
}
