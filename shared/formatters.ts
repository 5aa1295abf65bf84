// Making a formatter reads the rules of a language and takes tens of kilobytes outside of the heap until the next sweep; the page
// of a shelf writes hundreds of numbers and dates. So each is made once.

/** Of the locales and time zones of all households: few. */
const mostKept = 500;

function madeOnce<Options, Formatter>(
  make: (locale: string, options: Options) => Formatter,
): (locale: string, options: Options) => Formatter {
  const kept = new Map<string, Formatter>();
  return (locale, options) => {
    const key = `${locale} ${JSON.stringify(options)}`;
    const known = kept.get(key);
    if (known !== undefined) return known;
    const made = make(locale, options);
    if (kept.size >= mostKept) kept.clear();
    kept.set(key, made);
    return made;
  };
}

export const dateFormatter = madeOnce(
  (locale: string, options: Intl.DateTimeFormatOptions) => new Intl.DateTimeFormat(locale, options),
);

export const numberFormatter = madeOnce(
  (locale: string, options: Intl.NumberFormatOptions) => new Intl.NumberFormat(locale, options),
);

export const nameFormatter = madeOnce(
  (locale: string, options: Intl.DisplayNamesOptions) => new Intl.DisplayNames(locale, options),
);
