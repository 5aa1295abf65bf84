import { describe, expect, test } from 'vitest';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';
import { findStation } from '../../src/harvest/find-station.ts';

const { freezeNormals } = loadReferenceTables();
const found = (typed: string, altitudeFt: number | null = null) =>
  findStation(freezeNormals, typed, altitudeFt);
const named = (typed: string, altitudeFt: number | null = null): string => {
  const answer = found(typed, altitudeFt);
  return answer.kind === 'one' ? `${answer.station.name} ${answer.station.state}` : answer.kind;
};

// Names and heights as in the U.S. Climate Normals 1981–2010.
describe('a town that is typed', () => {
  test.each([
    ['Boulder, CO', 'BOULDER CO'],
    ['boulder colorado', 'BOULDER CO'],
    ['Fort Collins, CO', 'FT COLLINS CO'],
    ['Ft. Collins', 'FT COLLINS CO'],
    ['Mount Pleasant, MI', 'MT PLEASANT UNIV MI'],
    ['St. Louis, MO', 'ST LOUIS SCI CTR MO'],
    ['Bolder, CO', 'BOULDER CO'],
  ])('%s is the station %s', (typed, station) => {
    expect(named(typed)).toBe(station);
  });

  test('a name that several places have is asked about, those at a like height first', () => {
    const answer = found('Boulder', 6500);

    expect(answer).toMatchObject({
      kind: 'several',
      stations: [{ state: 'UT' }, { state: 'CO' }, { state: 'NV' }],
    });
    expect(found('Springfield').kind).toBe('several');
  });

  test('of stations of one town the one nearest in height is taken', () => {
    expect(named('Grand Junction, CO', 4850)).toBe('GRAND JUNCTION WALKER FLD CO');
    expect(named('Grand Junction, CO', 4700)).toBe('GRAND JUNCTION 6 ESE CO');
  });

  test('a kitchen far above its town is offered a station nearby at its own height', () => {
    const answer = found('Boulder, CO', 8300);

    expect(answer.kind === 'one' && Math.abs(answer.station.elevationFt - 8300)).toBeLessThan(1000);
  });

  test('a state alone is the state; a town of it without a station may be any of like height', () => {
    expect(found('Colorado')).toEqual({ kind: 'state', state: 'CO' });
    expect(found('west virginia')).toEqual({ kind: 'state', state: 'WV' });
    const small = found('Nowhere Gulch, CO', 8200);
    expect(small.kind).toBe('several');
    if (small.kind === 'several')
      for (const station of small.stations) {
        expect(station.state).toBe('CO');
        expect(Math.abs(station.elevationFt - 8200)).toBeLessThan(700);
      }
  });

  test('a place in no state is unknown', () => {
    expect(found('Kent, England')).toEqual({ kind: 'none' });
    expect(found('')).toEqual({ kind: 'none' });
    expect(found('🍓')).toEqual({ kind: 'none' });
  });

  test('every station is found by its own name and state, alone or among others', () => {
    const lost = freezeNormals
      .filter((_, at) => at % 97 === 0)
      .filter((station) => {
        const answer = found(`${station.name}, ${station.state}`, station.elevationFt);
        if (answer.kind === 'one') return Math.abs(answer.station.elevationFt - station.elevationFt) > 800;
        return answer.kind !== 'several' || !answer.stations.includes(station);
      });

    expect(lost.map(({ name, state }) => `${name} ${state}`)).toEqual([]);
  });
});
