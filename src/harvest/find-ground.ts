import { dateWords } from '../../shared/date-words.ts';
import { found, type Outcome, refused, together } from '../../shared/problems.ts';
import type { GroundRequest, TypedGround } from '../../shared/schemas/ground.ts';
import type { FreezeNormalRow } from '../../shared/schemas/reference/freeze-normal.ts';
import { stateNames } from '../../shared/us-states.ts';
import type { CalendarDate } from '../../shared/week.ts';
import { findStation, stationsNear } from './find-station.ts';
import type { SeasonTables } from './ground.ts';
import { seasonRegions } from './known-ground.ts';
import { regionOfSpot } from './region.ts';
import { stationName } from './station-name.ts';

/** One of the stations a typed town may be. */
export interface StationChoice {
  readonly value: string;
  /** "Boulder, Colorado, 5,484 ft" */
  readonly words: string;
}

/** Chosen instead of a station: the town is elsewhere in that state. */
const elsewhere = (state: string): string => `elsewhere-${state}`;

/**
 * What a typed town stands for, from the stations' own names and states; refused with a question where it may be several, or
 * where there is no station of that name. The choice comes back as `station`.
 */
export function findGround(
  typed: TypedGround,
  altitudeFt: number | null,
  tables: SeasonTables,
): Outcome<GroundRequest> {
  const dates = {
    lastFrost: monthDayOf(typed.lastFrost),
    firstFrost: monthDayOf(typed.firstFrost),
    strawberriesFrom: monthDayOf(typed.strawberriesFrom),
  };
  const { town } = typed;
  const nowhere: Outcome<Chosen> = found({ station: null, state: null });
  const read = together(
    frostOfSpring(typed.lastFrost),
    town === '' ? nowhere : chosenStation(typed, altitudeFt, tables.freezeNormals),
  );
  if (!read.ok) return read;
  if (town === '') return found({ town: null, station: null, state: null, ...dates });
  const { station, state } = read.value[1];
  const regions = seasonRegions(tables);
  const region =
    station === null
      ? (regions.find((one) => one.slice(0, 2) === state) ?? null)
      : regionOfSpot(station, regions);
  return found({ town, station: station?.station ?? null, state, ...dates, region });
}

/** The published seasons are those of the north; where frost ends later in the year they say nothing. Our own judgement. */
const lastOfSpring = '07-15';

const frostOfSpring = (date: CalendarDate | null): Outcome<null> =>
  date === null || (monthDayOf(date) ?? '') <= lastOfSpring
    ? found(null)
    : refused({
        code: 'frost-not-of-spring',
        path: ['lastFrost'],
        message: `${dateWords(date)} is no last frost of spring: choose a day from January to mid-July. South of the equator leave it blank, and write down your own dates on Harvest.`,
      });

const monthDayOf = (date: string | null): string | null =>
  date === null ? null : date.slice(5) === '02-29' ? '03-01' : date.slice(5);

interface Chosen {
  readonly station: FreezeNormalRow | null;
  readonly state: string | null;
}

function chosenStation(
  { town, station: answer }: TypedGround,
  altitudeFt: number | null,
  stations: readonly FreezeNormalRow[],
): Outcome<Chosen> {
  const asked = findStation(stations, town, altitudeFt);
  const offered =
    asked.kind === 'several'
      ? asked.stations.flatMap((one) => [one, ...stationsNear(stations, one, altitudeFt)])
      : asked.kind === 'one'
        ? [asked.station, ...stationsNear(stations, asked.station, altitudeFt)]
        : [];
  const picked = offered.find(({ station }) => station === answer);
  if (picked) return found({ station: picked, state: picked.state });
  switch (asked.kind) {
    case 'one':
      return found({ station: asked.station, state: asked.station.state });
    case 'state':
      return found({ station: null, state: asked.state });
    case 'several':
      if (asked.state !== null && answer === elsewhere(asked.state))
        return found({ station: null, state: asked.state });
      return refused({
        code: 'town-unclear',
        path: ['town'],
        message: `Which weather station is nearest to “${town}”? Choose one below, or write another town or the state.`,
      });
    case 'none':
      return refused({
        code: 'town-unknown',
        path: ['town'],
        message: `No weather station is known for “${town}”. Write a larger town near you with its state, such as Boulder, CO, or the state alone. Outside the United States leave it blank, and say your frosts instead: seasons are guessed from them.`,
      });
  }
}

/** What may be chosen where a town may be several; none where it is clear. */
export function stationChoices(
  town: string,
  altitudeFt: number | null,
  stations: readonly FreezeNormalRow[],
): readonly StationChoice[] {
  const asked = town.trim() === '' ? null : findStation(stations, town.trim(), altitudeFt);
  if (asked?.kind !== 'several') return [];
  const listed = asked.stations.map((station) => ({
    value: station.station,
    words: `${stationName(station)}, ${station.elevationFt.toLocaleString('en-US')} ft`,
  }));
  const { state } = asked;
  return state === null
    ? listed
    : [
        ...listed,
        { value: elsewhere(state), words: `None of these: elsewhere in ${stateNames[state] ?? state}` },
      ];
}
