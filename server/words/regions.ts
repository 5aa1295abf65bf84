import { remembering, whileTheSame } from '../../shared/remembering.ts';
import type { HarvestWindowRow } from '../../shared/schemas/reference/harvest-window.ts';
import type { Choice } from '../../views/parts/form.tsx';

interface Region {
  readonly words: string;
  /** What its clocks show; the greater part of it where there are two. */
  readonly timeZone: string;
}

/** The regions of the harvest table in words. */
const regions: Readonly<Record<string, Region>> = {
  'CA-N': { words: 'California, the north', timeZone: 'America/Los_Angeles' },
  'CA-S': { words: 'California, center and south', timeZone: 'America/Los_Angeles' },
  CO: { words: 'Colorado', timeZone: 'America/Denver' },
  GA: { words: 'Georgia', timeZone: 'America/New_York' },
  MA: { words: 'Massachusetts', timeZone: 'America/New_York' },
  MI: { words: 'Michigan, lower peninsula', timeZone: 'America/Detroit' },
  MN: { words: 'Minnesota', timeZone: 'America/Chicago' },
  NC: { words: 'North Carolina', timeZone: 'America/New_York' },
  NJ: { words: 'New Jersey', timeZone: 'America/New_York' },
  NY: { words: 'New York', timeZone: 'America/New_York' },
  OH: { words: 'Ohio', timeZone: 'America/New_York' },
  'OR-NW': { words: 'Oregon, the north-west', timeZone: 'America/Los_Angeles' },
  PA: { words: 'Pennsylvania', timeZone: 'America/New_York' },
  'PA-regional': { words: 'Pennsylvania and its neighbors', timeZone: 'America/New_York' },
  TX: { words: 'Texas', timeZone: 'America/Chicago' },
  VA: { words: 'Virginia', timeZone: 'America/New_York' },
  WA: { words: 'Washington State', timeZone: 'America/Los_Angeles' },
  WI: { words: 'Wisconsin', timeZone: 'America/Chicago' },
};

/** Every region with published seasons, by name. */
export const regionNames = (windows: readonly HarvestWindowRow[]): readonly Choice[] =>
  namesOfRegions({ windows });

const namesOfRegions = whileTheSame(
  'windows',
  ({ windows }: { readonly windows: readonly HarvestWindowRow[] }) =>
    [...new Set(windows.map(({ region }) => region))]
      .map((region) => ({ value: region, words: regionWords(region) }))
      .sort((one, other) => (one.words < other.words ? -1 : 1)),
);

/** Time zones to choose from: those of the regions first, then one for each part of the world canners write from. */
const timeZoneNames: readonly string[] = [
  ...new Set([
    ...Object.values(regions).map(({ timeZone }) => timeZone),
    'America/Anchorage',
    'America/Halifax',
    'America/Phoenix',
    'America/Toronto',
    'America/Vancouver',
    'Australia/Sydney',
    'Europe/Berlin',
    'Europe/Dublin',
    'Europe/London',
    'Pacific/Auckland',
    'Pacific/Honolulu',
  ]),
].sort();

export const regionWords = (region: string): string => regions[region]?.words ?? region;
export const regionTimeZone = (region: string | null): string | null =>
  region === null ? null : (regions[region]?.timeZone ?? null);

/** Time zones to choose from, those nearest at hand first; one that is kept under another name stays a choice. */
export const timeZoneChoices = remembering(
  (...first: readonly string[]): readonly Choice[] =>
    [...new Set([...first, ...timeZoneNames, ...allTimeZones])].map((value) => ({
      value,
      words: value.replaceAll('_', ' '),
    })),
  { keyOf: (...first) => first.join(' '), most: 50 },
);

const allTimeZones: readonly string[] = Intl.supportedValuesOf('timeZone');
