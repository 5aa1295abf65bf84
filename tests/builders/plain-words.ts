/** What a person never reads, and what it is called. */
const never: Readonly<Record<string, RegExp>> = {
  'a day as a machine writes it': /\b\d{4}-\d{2}-\d{2}\b/,
  'a week as a machine writes it': /\b\d{4}-W\d{2}\b/,
  'a part of a jar':
    /\b\d+\.\d+ (?:jars?|pints?|quarts?|half-pints?|bins?|batch(?:es)?|loads?|lids?)\b(?! a (?:week|month|year|school week|meal)\b)/,
  'one of several':
    /(?<![\d.,/–-])\b1 (?:jars|pints|quarts|half-pints|weeks|days|batches|loads|bags|lids|packs|boxes|times|years|preserves|things|notices|servings|months|hours|plants|rows|labels|units|pieces|kinds|cups|bins|recipes|items|are|were|have)\b/,
  'what was expected': /\bExpected\b/,
  'a key of a table': /\b[a-z]+(?:-[a-z]+)* · [a-z-]+ · |\b[a-z]+_[a-z]+\b/,
  'what is not there': /\b(?:undefined|NaN|null)\b|\[object/,
  'a British spelling':
    /\b(?:(?:kilo|milli|centi)?(?:metre|litre)s?|neighbours?|mould\w*|rubbish|draughts?|spoilt|learnt|sterilis\w*|power cuts?|colou?r(?<=colour)s?|favourite|grey|labour|catalogue)\b|\d %/,
};

/** What a household that reads in metric units is never told alone. */
const neverInMetric: Readonly<Record<string, RegExp>> = {
  'pounds for metric readers': /\b\d[\d,.]* lb\b/,
  'degrees Fahrenheit alone': /\d °F(?! \()/,
  'quarts as a measure': /\b\d[\d,.]* qt\b/,
  'inches alone': /[\d⅛¼⅓⅜½⅝⅔¾⅞] inch(?:es)?\b(?! \()/,
};

const typedLike = /\blike \d{4}-(?:\d{2}-\d{2}(?: \d{2}:\d{2})?|W\d{2})/gi;

/** What of a text no person should read, each with what stands around it. */
export const wrongIn = (words: string, units: 'us' | 'metric'): string[] => {
  const text = words.replaceAll(typedLike, 'like a day');
  return Object.entries(units === 'metric' ? { ...never, ...neverInMetric } : never).flatMap(
    ([what, pattern]) => {
      const found = pattern.exec(text);
      return found === null
        ? []
        : [`${what}: …${text.slice(Math.max(0, found.index - 60), found.index + 60)}…`];
    },
  );
};
