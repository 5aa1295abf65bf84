/** A QR code: unit squares on a field of `size` by `size`, quiet border included. */
export interface QrCodeProps {
  readonly size: number;
  readonly path: string;
  /** What it says, for those who hear the page. */
  readonly text: string;
}

export interface LabelProps {
  readonly name: string;
  readonly jar: string;
  readonly madeOn: string;
  readonly bestUntil: string;
  readonly code: string;
  readonly qr: QrCodeProps;
}

export interface LabelSheetProps {
  readonly locale: string;
  readonly style: string;
  /** Where each label stands; null where the sheet has none any more. */
  readonly sheets: readonly (readonly (LabelProps | null)[])[];
  readonly about: string;
}

/** Sheets for the printer and nothing else: its own document, without the pages' style. */
export const LabelSheet = ({ locale, style, sheets, about }: LabelSheetProps) => (
  <html lang={locale}>
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <title>Labels · Shelfward</title>
      <link rel="stylesheet" href={style} />
    </head>
    <body>
      <main>
        <div class="sheet-tools">
          <h1>Labels</h1>
          <p>{about}</p>
          <p>
            <a href="/labels">Back to the labels</a>
          </p>
        </div>
        {sheets.map((places, sheet) => (
          // A sheet is its place in the pile, a label its place on the sheet.
          <div key={`sheet-${sheet + 1}`} class="sheet">
            {places.map((label, place) =>
              label === null ? (
                <div key={`place-${place + 1}`} />
              ) : (
                <Label key={`place-${place + 1}`} {...label} />
              ),
            )}
          </div>
        ))}
      </main>
    </body>
  </html>
);

const Label = ({ name, jar, madeOn, bestUntil, code, qr }: LabelProps) => (
  <div class="label">
    <div>
      <p class="label-name">{name}</p>
      {jar === '' ? null : <p>{jar}</p>}
      <p>{madeOn}</p>
      <p>{bestUntil}</p>
      <p class="label-code">{code}</p>
    </div>
    <svg viewBox={`0 0 ${qr.size} ${qr.size}`} role="img" aria-label={qr.text} shape-rendering="crispEdges">
      <path d={qr.path} fill="#000" />
    </svg>
  </div>
);
