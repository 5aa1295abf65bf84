import { compare } from '../../shared/compare.ts';
import type { CalendarDate } from '../../shared/week.ts';
import type { JarEvent } from '../household/ledger.ts';

/** One person's takes of a span. */
export interface TakesOfPerson {
  readonly name: string;
  /** How many times, whatever number of units each. */
  readonly times: number;
  /** Names of the items taken most often, at most three, the most often first. */
  readonly mostOften: readonly string[];
}

export interface WhoTook {
  /** Who took most often comes first. */
  readonly people: readonly TakesOfPerson[];
  /** Takes of which nobody said whose they were. */
  readonly unsaid: number;
}

/** Who took what to eat from one day until before another, without what was undone; null where nobody ever said. */
export function whoTook(
  events: readonly JarEvent[],
  { from, until }: { readonly from: CalendarDate; readonly until: CalendarDate },
): WhoTook | null {
  const takes = new Map<string, { readonly name: string | null; readonly item: string }>();
  for (const { kind, isReversed, occurredOn, entryId, takenBy, itemName } of events)
    if (kind === 'taken' && !isReversed && from <= occurredOn && occurredOn < until)
      takes.set(entryId, { name: takenBy, item: itemName });
  const said = [...takes.values()].flatMap(({ name, item }) => (name === null ? [] : [{ name, item }]));
  if (said.length === 0) return null;
  const people = mostFirst(said.map(({ name }) => name)).map(([name, times]) => ({
    name,
    times,
    mostOften: mostFirst(said.filter((take) => take.name === name).map(({ item }) => item))
      .slice(0, itemsNamed)
      .map(([item]) => item),
  }));
  return { people, unsaid: takes.size - said.length };
}

const itemsNamed = 3;

/** Each word with how often it comes, the most often first; those that come as often by their letters. */
function mostFirst(words: readonly string[]): readonly (readonly [word: string, times: number])[] {
  const times = new Map<string, number>();
  for (const word of words) times.set(word, 1 + (times.get(word) ?? 0));
  return [...times].toSorted(
    ([one, often], [other, oftenOther]) => oftenOther - often || compare(one, other),
  );
}
