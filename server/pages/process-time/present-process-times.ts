import { pluralOf } from '../../../shared/counting.ts';
import { type JarSize, jarSizes } from '../../../shared/jar.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { inWords } from '../../../src/preserving/citation.ts';
import { untestedFoodRules } from '../../../src/preserving/foods/untested-foods.ts';
import { boilingPointF } from '../../../src/preserving/lookup/boiling-point.ts';
import { foodConditions } from '../../../src/preserving/lookup/food-conditions.ts';
import { chosenSchedule } from '../../../src/preserving/lookup/process-lookup.ts';
import { rowConditions } from '../../../src/preserving/lookup/row-conditions.ts';
import type { ProcessQuery, Schedule } from '../../../src/preserving/lookup/schedule.ts';
import { unsafeMethods } from '../../../src/preserving/lookup/unsafe-methods.ts';
import { type Refusal, type Ruling, refusal } from '../../../src/preserving/refusal.ts';
import type {
  ProcessAnswer,
  ProcessTimesPageProps,
} from '../../../views/pages/process-time/process-times-page.tsx';
import type { Choice } from '../../../views/parts/form.tsx';
import { formatNumber } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import {
  jarWords,
  presentCautions,
  presentSchedule,
  presentSources,
  scheduleWords,
} from '../../words/process-words.ts';

type Choices = Pick<
  ProcessTimesPageProps,
  'foods' | 'styles' | 'packs' | 'jars' | 'methods' | 'gauges' | 'units' | 'conditions'
>;

const inOrder = (choices: readonly Choice[]): readonly Choice[] =>
  choices.toSorted((one, other) => one.words.localeCompare(other.words, 'en'));

/** Everything that can be asked; the foods refused by rule stand among the others, so that the rule is found. */
export function lookUpChoices(
  { processTimes }: Pick<ReferenceTables, 'processTimes'>,
  food: string,
): Choices {
  const nameByKey = new Map(processTimes.map((row) => [row.foodKey, row.food]));
  const untested = untestedFoodRules.map(({ name }) => ({
    value: name.toLowerCase(),
    words: `${name} (no process)`,
  }));
  const styles = [...new Set(processTimes.filter((row) => row.foodKey === food).map(({ style }) => style))];
  return {
    foods: [
      { value: '', words: 'Choose a food' },
      ...inOrder([...[...nameByKey].map(([value, words]) => ({ value, words })), ...untested]),
    ],
    styles: [
      { value: '', words: styles.length > 1 ? 'Choose a style' : 'the only one' },
      ...styles.map((style) => ({ value: style, words: style })),
    ],
    packs: [
      { value: 'hot', words: 'hot' },
      { value: 'raw', words: 'raw' },
      { value: 'none', words: 'neither is printed' },
    ],
    jars: jarSizes.map((size: JarSize) => ({ value: size, words: jarWords(size) })),
    methods: [
      { value: 'boiling-water', words: 'boiling water' },
      { value: 'atmospheric-steam', words: 'atmospheric steam' },
      { value: 'pressure', words: 'pressure' },
      ...unsafeMethods.map((method) => ({ value: method, words: `${method.replaceAll('-', ' ')} (never)` })),
    ],
    gauges: [
      { value: '', words: 'no pressure canner' },
      { value: 'weighted', words: 'weighted' },
      { value: 'dial', words: 'dial' },
    ],
    units: [
      { value: 'ft', words: 'feet' },
      { value: 'm', words: 'meters' },
    ],
    conditions: [
      { value: '', words: 'nothing special' },
      ...foodConditions.map((condition) => ({ value: condition, words: condition.replaceAll('-', ' ') })),
    ],
  };
}

/** The rule against a food chosen from the list of those never canned. */
export const namedRefusal = (food: string): Refusal | undefined => {
  const named = untestedFoodRules.find(({ name }) => name.toLowerCase() === food);
  return named && refusal('food-untested', 'food', named.rule, named.source, named.instead);
};

const presentRuleRefusal = ({ code, rule, source, instead }: Refusal) => ({
  key: `${code}-${rule}`,
  rule,
  source: inWords(source),
  instead: code === 'dial-gauge-unchecked' ? `${instead} Was it checked? Then enter the day above.` : instead,
});

export const neverCanned: ProcessTimesPageProps['never'] = untestedFoodRules.map(
  ({ name, rule, source, instead }) => ({
    key: name,
    rule: `${name}. ${rule}`,
    source: inWords(source),
    instead,
  }),
);

/** Which printed alternative was chosen, and the address that chooses one. */
export interface AnswerSetting {
  /** What the food is called, for an answer without a schedule. */
  readonly foodName: string;
  readonly chosenRow: string | null;
  readonly choose: (rowKey: string) => string;
  readonly reading: Reading;
  readonly reference: ReferenceTables;
}

export function presentAnswer(
  query: Pick<ProcessQuery, 'foodKey' | 'jar' | 'method' | 'gauge' | 'altitudeFt'>,
  ruling: Ruling<readonly [Schedule, ...Schedule[]]>,
  { foodName, chosenRow, choose, reading, reference }: AnswerSetting,
): ProcessAnswer {
  const printed = ruling.ok ? ruling.value : [];
  const [first] = printed;
  const chosen = ruling.ok ? chosenSchedule(ruling.value, chosenRow) : ruling;
  return {
    title: first
      ? `${first.food}: ${first.style}, ${first.pack === 'none' ? '' : `${first.pack} pack, `}${pluralOf(jarWords(first.jar))}`
      : `${foodName}, ${pluralOf(jarWords(query.jar))}`,
    schedule: chosen.ok ? presentSchedule(chosen.value, reading) : null,
    choices:
      printed.length < 2
        ? []
        : printed.map((schedule) => ({
            key: schedule.rowKey,
            words: scheduleWords(schedule),
            href: choose(schedule.rowKey),
            isChosen: chosen.ok && chosen.value.rowKey === schedule.rowKey,
          })),
    refusals: ruling.ok ? [] : ruling.problems.map(presentRuleRefusal),
    onlyIf: first === undefined ? [] : rowConditions(reference, chosen.ok ? chosen.value : first),
    cautions: presentCautions(printed),
    sources: presentSources(printed, reference.sources),
    boiling: first === undefined ? null : boilingWords(query.altitudeFt, reading),
  };
}

const boilingWords = (altitudeFt: number, reading: Reading): string => {
  const fahrenheit = boilingPointF(altitudeFt);
  return `Water boils at about ${formatNumber(fahrenheit, reading, 0)} °F (${formatNumber(((fahrenheit - 32) * 5) / 9, reading, 0)} °C) up there, which is why places above the sea need more time or pressure. This explains the time; it never sets it.`;
};
