import type { CropKey, SourceId } from '../../shared/ids.ts';
import type { Cents } from '../../shared/money.ts';
import type { TradeMeasure } from '../../shared/trade-measure.ts';
import type { CalendarDate } from '../../shared/week.ts';

/** One year's dates of a source; every end is the day after the last. */
export interface HarvestWindow {
  readonly year: number;
  readonly beginsOn: CalendarDate;
  readonly endsOn: CalendarDate;
  readonly mostActive: { readonly fromOn: CalendarDate; readonly untilOn: CalendarDate } | null;
  readonly lbPerWeek: number;
  /** What other years give, where this one failed; null where it is as this one. */
  readonly usualLbPerWeek: number | null;
  /** The program guessed the dates, from the tables and the household's ground. */
  readonly datesGuessed: boolean;
  readonly firstPickedOn: CalendarDate | null;
}

export interface Source {
  readonly id: SourceId;
  readonly crop: CropKey;
  readonly name: string;
  readonly kind: 'garden' | 'pick-your-own' | 'market';
  readonly pricePerLb: Cents;
  /** The trade measure its price was said in, and what one costs; null where it was said by weight. */
  readonly pricedIn: { readonly measure: TradeMeasure; readonly cents: Cents } | null;
  readonly plants: number | null;
  readonly lbPerPlant: number | null;
  readonly useByDays: number;
  readonly poorYearChance: number;
  readonly poorYearShare: number;
  readonly fallBack: 'buy' | 'substitute' | 'do-without';
  /** Oldest year first. */
  readonly windows: readonly HarvestWindow[];
}
