import { compare } from '../../../shared/compare.ts';
import { kitchenRoom } from '../days/hands-in-week.ts';
import { orNone } from '../lookup.ts';
import type { Plan, PlannedWeek } from '../plan.ts';
import type { PlanningYear } from '../planning-year.ts';
import type { More } from './worth-of-more.ts';

/** Weeks and jar kinds asked about; every question is a solve. */
const mostWeeks = 2;
const mostJarKinds = 2;
const tenDollars = 1000;

/**
 * What is worth asking about first: an hour and a canner load in the fullest weeks, a dozen of the jars the plan buys
 * most of, and ten dollars a week.
 */
export function moreToAsk(year: PlanningYear, plan: Plan): readonly More[] {
  const room = (at: number) => kitchenRoom(year.time, at);
  const fullest = plan.weeks
    .map((planned, at) => ({ planned, share: room(at) > 0 ? planned.kitchenMinutes / room(at) : 0 }))
    .filter(({ share }) => share > 0)
    .sort((one, other) => other.share - one.share)
    .slice(0, mostWeeks);
  const bought = new Map<string, number>();
  for (const { kind, what, quantity } of plan.weeks.flatMap(({ purchases }) => purchases))
    if (kind === 'jars') bought.set(what, orNone(bought.get(what)) + quantity);
  const kinds = [...bought]
    .sort(([one, many], [other, more]) => more - many || compare(one, other))
    .slice(0, mostJarKinds);
  return [
    ...fullest.map(({ planned }): More => ({ what: 'hour', week: planned.week })),
    ...fullest.slice(0, 1).flatMap(({ planned }) => loadMore(planned)),
    ...kinds.map(([kind]): More => ({ what: 'dozen jars', kind })),
    { what: 'weekly money', cents: tenDollars },
  ];
}

/** One load more in the canner that takes most of them in a week, the first of equal ones; nothing where nothing is canned. */
function loadMore({ week, sessions }: PlannedWeek): readonly More[] {
  const cannerId = sessions.toSorted((one, other) => other.loads - one.loads)[0]?.canner;
  return cannerId == null ? [] : [{ what: 'load', week, cannerId }];
}
