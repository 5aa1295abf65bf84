// What people read in style sheets and scripts and browsers do not: it does not have to travel.

/** Comments and the space around signs say nothing to a browser. */
export const tightened = (css: string): string =>
  css
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/\s+/g, ' ')
    .replace(/ ?([{};,]) ?/g, '$1')
    .replace(/: /g, ':')
    .replace(/ > /g, '>')
    .replace(/;}/g, '}')
    .trim();

/** Comments on lines of their own, empty lines and indentation; our scripts hold no text of several lines. */
export const tightenedScript = (script: string): string =>
  script
    .replace(/^\s*\/\*\*[\s\S]*?\*\/\n/gm, '')
    .replace(/^\s*\/\/.*\n/gm, '')
    .replace(/^\s+/gm, '');
