import type { UseForecast } from '../../../src/consumption/use-forecast.ts';
import type { ItemYear } from '../../../src/planning/year/item-year.ts';
import type { ItemWeek, YearItemPageProps } from '../../../views/pages/year/year-item-page.tsx';
import { formatNumber, formatQuantity, formatWeek } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { sentenceCase } from '../../../views/words/sentences.ts';
import { amountOf } from '../../words/shelf-units.ts';
import { walkLines } from '../../words/year/year-walk.ts';
import type { YearReader } from '../shared/present-board.ts';
import { yearWords } from './year-words.ts';

export const presentYearItem = (
  itemYear: ItemYear,
  reader: YearReader,
): Omit<YearItemPageProps, 'frame' | 'head' | 'whys'> => {
  const { item, target, forecast } = itemYear;
  const { reading } = reader;
  const { sentence, ahead } = yearWords(itemYear, reader);
  return {
    sentence,
    ahead,
    target:
      itemYear.walk === null
        ? null
        : walkLines(item, itemYear.walk, reading, {
            hasPlan: reader.picture.plan !== null,
            isBought: itemYear.supply.by === 'bought',
            perWeek: forecast?.perWeek ?? 0,
            useWeeks:
              forecast === null || forecast.perWeek <= 0 ? 0 : (target?.parts.use ?? 0) / forecast.perWeek,
          }),
    use: forecast === null ? null : useWords(itemYear, forecast, reading),
    plans: presentPlans(itemYear, reader),
    weeks: presentWeeks(itemYear, reader),
  };
};

/** Declared, counted, and what comes of both: the evidence behind the number. */
const useWords = (
  { item }: ItemYear,
  { evidence, perWeek, perWeekRange }: UseForecast,
  reading: Reading,
): string => {
  const figure = (value: number): string => formatNumber(value, reading, 2);
  return [
    evidence.declaredPerWeek > 0
      ? `You said ${figure(evidence.declaredPerWeek)} a week.`
      : 'You have not said how much you eat, so the forecast goes by what you took.',
    evidence.weeksThatCounted < 0.5
      ? 'No week has counted yet.'
      : `${amountOf(item, evidence.takings, reading)} in ${formatQuantity(Math.round(evidence.weeksThatCounted), 'week', reading)} that counted.`,
    `We expect ${figure(perWeek)} a week, four years in five between ${figure(perWeekRange.low)} and ${figure(perWeekRange.high)}.`,
  ].join(' ');
};

const presentPlans = (
  { path, item }: ItemYear,
  { picture, reading }: YearReader,
): YearItemPageProps['plans'] => {
  const { plan, loaded } = picture;
  if (path === null || plan === null) return [];
  const [thisWeek] = loaded.year.weeks;
  return plan.year.weeks.flatMap((week, at) => {
    if (thisWeek !== undefined && week < thisWeek) return [];
    const made = path.madeByWeek[at] ?? 0;
    const bought = path.boughtByWeek[at] ?? 0;
    const words = [
      made > 0.05 ? `put up ${amountOf(item, made, reading)}` : '',
      bought > 0.05 ? `buy ${amountOf(item, bought, reading)}` : '',
    ].filter((part) => part !== '');
    return words.length === 0
      ? []
      : [{ key: week, week: sentenceCase(formatWeek(week, reading)), words: words.join(', ') }];
  });
};

const presentWeeks = ({ projection }: ItemYear, { reading }: YearReader): readonly ItemWeek[] =>
  (projection?.weeks ?? []).map(({ week, closing, in: comes, pastBest }) => ({
    key: week,
    week: formatWeek(week, reading),
    likely: formatNumber(closing.p50, reading),
    range: `${formatNumber(closing.p10, reading)} to ${formatNumber(closing.p90, reading)}`,
    comes: comes === 0 ? '' : formatNumber(comes, reading),
    remark: pastBest.p50 >= 0.5 ? `about ${formatNumber(pastBest.p50, reading)} past best quality` : '',
  }));
