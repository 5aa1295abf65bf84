import { counted, isOrAre } from '../../../shared/counting.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { CalendarDate } from '../../../shared/week.ts';
import type { HouseholdFacts } from '../../../src/household/facts.ts';
import {
  type EmergencyAdvice,
  type EmergencyShelf,
  emergencyAdvice,
  emergencyShelf,
} from '../../../src/shelf/emergency-shelf.ts';
import type { EmergencyProps } from '../../../views/pages/targets/emergency-part.tsx';
import { formatDate, formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed } from '../../../views/words/sentences.ts';
import { plain } from '../../words/plain-number.ts';
import { amountOf } from '../../words/shelf-units.ts';
import type { StateOfForm } from '../shared/answer-form.ts';
import { waterInUnits, waterUnit, waterWords } from './water-amount.ts';

/** What is kept for an emergency: water and food for the days wished for, item by item, and the guides it is held against. */
export function presentEmergency(
  { household, items, lots }: Pick<HouseholdFacts, 'household' | 'items' | 'lots'>,
  { emergencyAdvice: rows, sources }: Pick<ReferenceTables, 'emergencyAdvice' | 'sources'>,
  today: CalendarDate,
  reading: Reading,
  state: StateOfForm,
): EmergencyProps {
  const advice = emergencyAdvice(rows);
  const shelf = emergencyShelf(household, items, lots, advice);
  const uncounted = shelf.items.filter(({ servings }) => servings === null).map(({ item }) => item.name);
  const days = household.emergencyDays;
  const setting =
    days === null ? null : `${counted(household.people, 'person', 'people')}, ${counted(days, 'day')}`;
  const adviceSources = new Set(rows.map(({ sourceId }) => sourceId));
  return {
    summary: summaryOf(shelf, reading),
    water: {
      title: 'Water',
      figures: waterFigures(shelf, advice, setting, reading),
      replace: replaceWords(shelf, advice, today, reading),
    },
    food: {
      title: 'Food',
      figures: foodFigures(shelf, setting, reading),
      uncounted:
        uncounted.length === 0
          ? null
          : `Not counted: ${listed(uncounted)}. Open it and say how many servings are in one.`,
    },
    items: shelf.items.map(({ item, wanted, standing, servings }) => ({
      key: item.id,
      item: { name: item.name, family: item.family, href: `/items/${item.id}#facts` },
      wanted: amountOf(item, wanted, reading),
      standing: amountOf(item, standing, reading),
      servings: servings === null ? '' : formatNumber(servings, reading, 0),
    })),
    advice: `A public guide advises ${waterWords(advice.gallonsPerPersonAndDay, reading)} of water for each person and day, for ${counted(advice.leastDays, 'day')} at least and two weeks where you can, and food for two weeks. More where it is hot, and for whoever is pregnant or ill. Sources:`,
    sources: sources
      .filter(({ sourceId }) => adviceSources.has(sourceId))
      .map(({ publisher, title, address }) => ({
        words: `${publisher}, ${title}`,
        href: address === '' ? null : address,
      })),
    unit: waterUnit(reading),
    form: state('emergency', {
      days: days === null ? '' : plain(days),
      water: household.waterGallons === null ? '' : plain(waterInUnits(household.waterGallons, reading)),
      filledOn: household.waterFilledOn ?? '',
    }),
  };
}

/** `36 gallons of water missing`; before days are said what it is about. */
function summaryOf({ water }: EmergencyShelf, reading: Reading): string {
  if (water.missing === null) return 'Water and food';
  return water.missing <= 1e-6 ? 'Enough water' : `${waterWords(water.missing, reading)} of water missing`;
}

/** `4 people, 14 days: 56 gallons. You keep 20 gallons; 36 gallons are still missing.` */
function waterFigures(
  { water }: EmergencyShelf,
  advice: EmergencyAdvice,
  setting: string | null,
  reading: Reading,
): string {
  const kept = water.kept > 0 ? `You keep ${waterWords(water.kept, reading)}` : 'You have written down none';
  if (setting === null || water.wanted === null || water.missing === null)
    return `${kept}. Say for how many days, and the ${waterWords(advice.gallonsPerPersonAndDay, reading)} a person and day are counted for you.`;
  const missing =
    water.missing <= 1e-6
      ? 'that is enough'
      : `${waterWords(water.missing, reading)} ${isOrAre(waterInUnits(water.missing, reading))} still missing`;
  return `${setting}: ${waterWords(water.wanted, reading)}. ${kept}; ${missing}.`;
}

/** `Filled by you: replace it by May 2.`; that it is due once the day has come. */
function replaceWords(
  { water: { replaceBy } }: EmergencyShelf,
  { replaceWaterMonths }: EmergencyAdvice,
  today: CalendarDate,
  reading: Reading,
): string | null {
  if (replaceBy === null) return null;
  const every = `Water you filled yourself is replaced every ${counted(replaceWaterMonths, 'month')}`;
  return replaceBy <= today
    ? `${every}: yours has been due since ${formatDate(replaceBy, reading)}.`
    : `${every}: yours by ${formatDate(replaceBy, reading)}.`;
}

/** `90 servings are kept: 1.6 for each person and day (4 people, 14 days).` */
function foodFigures(
  { items, servings, servingsPerPersonAndDay }: EmergencyShelf,
  setting: string | null,
  reading: Reading,
): string {
  if (items.length === 0) return 'Nothing is kept for an emergency yet.';
  const all = `${counted(formatNumber(servings, reading, 0), 'serving')} ${isOrAre(servings)} there`;
  return setting === null || servingsPerPersonAndDay === null
    ? `${all}.`
    : `${all}: ${formatNumber(servingsPerPersonAndDay, reading, 1)} for each person and day (${setting}). No guide we read prints how many a day takes.`;
}
