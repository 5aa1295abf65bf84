import { type Citation, cite } from '../citation.ts';

export type Appliance = 'refrigerator' | 'freezer-full' | 'freezer-half-full';

/** What lies in it, by how fast it turns dangerous. */
export const chilledFoods = [
  'meat-fish-poultry',
  'cooked-dishes-and-soups',
  'opened-low-acid-jar',
  'cut-vegetables',
  'frozen-vegetables',
  'frozen-fruit-or-juice',
  'jam-pickles-condiments',
] as const;
export type ChilledFood = (typeof chilledFoods)[number];

export interface PowerCut {
  readonly appliance: Appliance;
  /** UTC milliseconds. */
  readonly startedAt: number;
  readonly endedAt: number;
  readonly doorKeptShut: boolean;
}

/** What is seen of one food when the power is back. `null`: not looked at. */
export interface FoodSeen {
  readonly food: ChilledFood;
  readonly iceCrystals: boolean | null;
  /** Warmest reading in °F. */
  readonly warmestF: number | null;
}

export type Verdict = 'keep' | 'refreeze' | 'cook-or-refreeze' | 'discard';

export interface PowerCutAdvice {
  readonly verdict: Verdict;
  readonly text: string;
  readonly source: Citation;
}

const hourMs = 3_600_000;
const hoursSafe: Readonly<Record<Appliance, number>> = {
  refrigerator: 4,
  'freezer-full': 48,
  'freezer-half-full': 24,
};
const coldEnoughF = 40;
const hours = cite('FSIS-POWER', 'hours of a closed appliance');
const thawed = cite('FSIS-POWER', 'refreezing');

/**
 * What to do with one food after a power cut. Kept shut, a refrigerator stays cold for 4 hours, a full freezer for 48, a
 * half-full one for 24. Frozen food with ice crystals, or at 40 °F or below, may be refrozen or cooked. Anything else
 * that spoils is discarded, and nothing is tasted to find out. Jam, pickles and condiments stand longer; thawed fruit may
 * be refrozen unless it smells or moulds.
 *
 * Source: US government food safety site, food safety during a power outage, charts of refrigerated and frozen food.
 */
export const powerCutAdvice = (cut: PowerCut, seen: FoodSeen): PowerCutAdvice => {
  const lasted = (cut.endedAt - cut.startedAt) / hourMs;
  const coldByReading = seen.warmestF === null ? null : seen.warmestF <= coldEnoughF;
  const coldByHours = cut.doorKeptShut && lasted >= 0 && lasted <= hoursSafe[cut.appliance];
  if (coldByReading === false) return warmed(seen.food);
  if (cut.appliance === 'refrigerator') {
    if (coldByReading === true || coldByHours)
      return { verdict: 'keep', text: 'It stayed cold. Keep it.', source: hours };
    return warmed(seen.food);
  }
  if (seen.iceCrystals === true || coldByReading === true) {
    return {
      verdict: 'cook-or-refreeze',
      text: 'It still has ice crystals or is at 40 °F or below. Refreeze it or cook it now; it may lose some quality.',
      source: thawed,
    };
  }
  if (coldByHours && seen.iceCrystals === null) {
    return { verdict: 'keep', text: 'The freezer stayed cold. Leave it frozen.', source: hours };
  }
  return warmed(seen.food);
};

const warmed = (food: ChilledFood): PowerCutAdvice => {
  if (food === 'jam-pickles-condiments') {
    return {
      verdict: 'keep',
      text: 'Sweet and sour spreads, pickles and condiments may be kept; chill them again.',
      source: cite('FSIS-POWER', 'chart of refrigerated food'),
    };
  }
  if (food === 'frozen-fruit-or-juice') {
    return {
      verdict: 'refreeze',
      text: 'Thawed fruit may be refrozen or made into jam now. Discard it if it smells of yeast, is slimy or molds.',
      source: cite('FSIS-POWER', 'chart of frozen food'),
    };
  }
  return {
    verdict: 'discard',
    text: 'It may have been warm too long. Discard it, and do not taste it to find out.',
    source: thawed,
  };
};
