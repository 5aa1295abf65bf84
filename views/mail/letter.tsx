/** A letter as both of its forms are made from it. */
export interface LetterProps {
  readonly locale: string;
  readonly title: string;
  readonly opening: string;
  readonly parts: readonly LetterPart[];
  /** Where the pages are, and where to say that no more letters are wanted. */
  readonly links: readonly { readonly words: string; readonly href: string }[];
}

export interface LetterPart {
  readonly title: string;
  readonly lines: readonly string[];
}

// A mail program has no style sheet of ours; what little is set stands on the elements themselves.
const page = 'margin:0;padding:24px;background:#fcfdfd;color:#17212b;font:16px/1.5 system-ui,sans-serif';
const sheet = 'max-width:36em;margin:0 auto;border-top:5px solid #1d3fa6;padding-top:16px';
const heading =
  'font:700 18px/1.3 Georgia,serif;margin:24px 0 4px;border-top:1px solid #1d3fa6;padding-top:8px';

/** The letter as HTML. */
export const LetterHtml = ({ locale, title, opening, parts, links }: LetterProps) => (
  <html lang={locale}>
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <title>{title}</title>
    </head>
    <body style={page}>
      <div style={sheet}>
        <h1 style="font:700 24px/1.2 Georgia,serif;margin:0 0 8px">{title}</h1>
        <p style="margin:0">{opening}</p>
        {parts.map((part) => (
          <div key={part.title}>
            <h2 style={heading}>{part.title}</h2>
            <ul style="margin:0;padding-left:20px">
              {part.lines.map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </div>
        ))}
        <p style="margin:32px 0 0;font-size:14px">
          {links.map((link) => (
            <span key={link.href}>
              <a href={link.href} style="color:#1d3fa6">
                {link.words}
              </a>
              {'  '}
            </span>
          ))}
        </p>
      </div>
    </body>
  </html>
);

/** The same as plain text, in lines short enough for any mail program. */
export const letterPlain = ({ title, opening, parts, links }: LetterProps): string =>
  [
    title,
    '',
    ...wrapped(opening, ''),
    ...parts.flatMap((part) => [
      '',
      part.title.toUpperCase(),
      ...part.lines.flatMap((line) => wrapped(line, '- ')),
    ]),
    '',
    ...links.map(({ words, href }) => `${words}: ${href}`),
    '',
  ].join('\n');

const longestLine = 74;

function wrapped(text: string, mark: string): string[] {
  const lines: string[] = [];
  let line = mark;
  for (const word of text.split(/\s+/)) {
    if (line.length + word.length + 1 > longestLine && line.trim() !== mark.trim()) {
      lines.push(line.trimEnd());
      line = ' '.repeat(mark.length);
    }
    line += `${word} `;
  }
  return [...lines, line.trimEnd()];
}
