import type { FreezeNormalRow } from '../../shared/schemas/reference/freeze-normal.ts';
import { stateNames } from '../../shared/us-states.ts';
import { type Climate, climateAt, middleClimate, milesBetween } from './climate.ts';

/** What a typed place was found to be. */
export type FoundStation =
  /** `others` are stations near it, the likest first. */
  | { readonly kind: 'one'; readonly station: FreezeNormalRow; readonly others: readonly FreezeNormalRow[] }
  /** Several places of that name, or none and what its state has at a like height; the likest first. */
  | { readonly kind: 'several'; readonly stations: readonly FreezeNormalRow[]; readonly state: string | null }
  /** A state and no town. */
  | { readonly kind: 'state'; readonly state: string }
  /** No town of that name, in the state where one was named. */
  | { readonly kind: 'none' };

/** Words a station's name shortens, as it is published in capitals. */
const longWords: Readonly<Record<string, string>> = {
  ap: 'airport',
  co: 'county',
  ctr: 'center',
  ft: 'fort',
  hts: 'heights',
  intl: 'international',
  mem: 'memorial',
  mt: 'mount',
  mtn: 'mountain',
  pt: 'point',
  rgnl: 'regional',
  spgs: 'springs',
  spr: 'springs',
  sprgs: 'springs',
  st: 'saint',
  ste: 'sainte',
  univ: 'university',
  vly: 'valley',
};

const wordsOf = (text: string): readonly string[] =>
  text
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[.'’]/g, '')
    .split(/[^a-z0-9#]+/)
    .filter((word) => word !== '')
    .map((word) => longWords[word] ?? word);

const stateByWords = new Map(
  Object.entries(stateNames).flatMap(([state, name]) => [
    [state.toLowerCase(), state] as const,
    [name.toLowerCase(), state] as const,
  ]),
);

/** The town and the state of "Boulder, CO", "Boulder Colorado", "Colorado"; a state alone leaves no town. */
function readPlace(typed: string): { readonly town: readonly string[]; readonly state: string | null } {
  const raw = typed
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== '');
  for (const count of [3, 2, 1]) {
    const state = stateByWords.get(raw.slice(-count).join(' '));
    // "Washington" or "New York" may be the town; a comma or a town before it makes it the state.
    if (state !== undefined && raw.length >= count)
      return { town: wordsOf(raw.slice(0, -count).join(' ')), state };
  }
  return { town: wordsOf(raw.join(' ')), state: null };
}

const isOneTown = 25;
const isNear = 45;
const isLikeHeight = 800;
const mostShown = 10;

/**
 * The weather station of a place typed in words, offline: by the stations' own names and states. Where several places have
 * the name, all are given, those at a like height first; a state without the town gives its stations at a like height. From
 * stations of one town the one nearest in height is taken, or another within 45 miles where that is far off in height. The
 * miles and feet are our own judgement.
 *
 * Example: "Boulder, CO" is BOULDER of Colorado; "Boulder" is asked about: Colorado, Utah or Nevada.
 */
export function findStation(
  stations: readonly FreezeNormalRow[],
  typed: string,
  altitudeFt: number | null,
): FoundStation {
  const { town, state } = readPlace(typed);
  if (town.length === 0) return state === null ? { kind: 'none' } : { kind: 'state', state };
  const inState = state === null ? stations : stations.filter((station) => station.state === state);
  const named = byName(inState, town);
  const liking = (one: FreezeNormalRow, other: FreezeNormalRow) =>
    heightApart(one, altitudeFt) - heightApart(other, altitudeFt);
  const [first] = named;
  if (first === undefined) {
    if (state === null || inState.length === 0) return { kind: 'none' };
    return { kind: 'several', stations: [...inState].sort(liking).slice(0, mostShown), state };
  }
  if (named.some((station) => milesBetween(first, station) > isOneTown))
    return { kind: 'several', stations: onePerTown([...named].sort(liking)).slice(0, mostShown), state };
  const near = stationsNear(stations, first, altitudeFt);
  const [likest = first] = [...named].sort(liking);
  const station = heightApart(likest, altitudeFt) <= isLikeHeight ? likest : (near[0] ?? likest);
  return { kind: 'one', station, others: near.filter((other) => other !== station).slice(0, mostShown) };
}

/** Stations within 45 miles, the likest first: ten miles count as a hundred feet. */
export function stationsNear(
  stations: readonly FreezeNormalRow[],
  from: FreezeNormalRow,
  altitudeFt: number | null,
): readonly FreezeNormalRow[] {
  const height = altitudeFt ?? from.elevationFt;
  const apart = (station: FreezeNormalRow) =>
    milesBetween(from, station) / 10 + heightApart(station, height) / 100;
  return stations
    .filter((station) => milesBetween(from, station) <= isNear)
    .sort((one, other) => apart(one) - apart(other));
}

/** The middle of a state's stations at about a height; of all of them where the height is not known or none is near it. */
export function climateAtHeight(
  stations: readonly FreezeNormalRow[],
  isIn: (station: FreezeNormalRow) => boolean,
  altitudeFt: number | null,
): { readonly climate: Climate; readonly stations: number; readonly isAtHeight: boolean } | null {
  const own = stations.filter(isIn);
  const level = own.filter((station) => altitudeFt !== null && heightApart(station, altitudeFt) <= 500);
  const isAtHeight = level.length >= 3;
  const used = isAtHeight ? level : own;
  const climate = middleClimate(used.map(climateAt));
  return climate === null ? null : { climate, stations: used.length, isAtHeight };
}

const heightApart = (station: FreezeNormalRow, altitudeFt: number | null): number =>
  altitudeFt === null ? 0 : Math.abs(station.elevationFt - altitudeFt);

/** Stations of that name: exactly, otherwise those whose name begins with it, has its words, or is one letter off. */
function byName(stations: readonly FreezeNormalRow[], town: readonly string[]): readonly FreezeNormalRow[] {
  const wanted = town.join(' ');
  const named = stations.map((station) => ({ station, words: wordsOf(station.name) }));
  // "4 E" behind a name says how far from the town the station stands.
  const core = (words: readonly string[]) => words.join(' ').replace(/ #?\d.*$/, '');
  const pick = (fits: (words: readonly string[]) => boolean) =>
    named.filter(({ words }) => fits(words)).map(({ station }) => station);
  const begins = pick((words) => core(words) === wanted || `${words.join(' ')} `.startsWith(`${wanted} `));
  if (begins.length > 0) return begins;
  const holds = pick((words) => town.every((word) => words.includes(word)));
  if (holds.length > 0) return holds;
  return wanted.length < 5 ? [] : pick((words) => isOneLetterOff(core(words), wanted));
}

/** Whether one letter more, less or another makes one of the other. */
function isOneLetterOff(one: string, other: string): boolean {
  const [short, long] = one.length <= other.length ? [one, other] : [other, one];
  if (long.length - short.length > 1) return false;
  let at = 0;
  while (at < short.length && short[at] === long[at]) at += 1;
  return short.slice(long.length === short.length ? at + 1 : at) === long.slice(at + 1);
}

const onePerTown = (stations: readonly FreezeNormalRow[]): readonly FreezeNormalRow[] =>
  stations.filter(
    (station, at) => !stations.slice(0, at).some((before) => milesBetween(before, station) <= isOneTown),
  );
