/** What escaped text says. */
export const plainText = (html: string): string =>
  html
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');

/** An attribute of a tag; empty where it stands without a value, null where it does not stand. */
export const attribute = (tag: string, name: string): string | null => {
  const found = new RegExp(`\\s${name}(?:="([^"]*)")?(?=[\\s>/])`).exec(tag);
  return found === null ? null : plainText(found[1] ?? '');
};
