import { counted } from '../../../shared/counting.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { ButtonLink } from '../../parts/button.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';

export interface DoorSheetPageProps {
  readonly frame: Frame;
  /** `Thistle Bank, Aug 12, 2026` */
  readonly heading: string;
  /** `pound` */
  readonly weight: string;
  readonly families: readonly { readonly name: string; readonly lines: readonly DoorLine[] }[];
}

/** One item on the sheet at the pantry door. */
export interface DoorLine {
  readonly itemId: string;
  readonly item: ItemLabel;
  readonly have: string;
  /** Units until the next season; empty for what is bought any week. */
  readonly need: string;
  readonly weeksLeft: string;
  readonly where: string;
  /** Boxes to tick, one a unit taken. */
  readonly boxes: number;
}

/** So many lines of print stand on one side; more are set smaller. */
const mostAtFullSize = 48;
/** So much of a name stands on one line. */
const nameOnOneLine = 30;

const linesOf = (families: DoorSheetPageProps['families']): number =>
  families.reduce(
    (total, { lines }) =>
      total + 1 + lines.reduce((sum, { item }) => sum + Math.ceil(item.name.length / nameOnOneLine), 0),
    0,
  );

/** The sheet that hangs at the pantry door: what is there, how far it has to reach, and a box for every jar taken. */
export const DoorSheetPage = ({ frame, heading, weight, families }: DoorSheetPageProps) => (
  <Page
    frame={frame}
    title="Pantry-door sheet"
    section="shelf"
    about="A printed sheet for the pantry door, with a box to tick for every jar taken."
    wide
    moreCss={frame.assets.paperCss}
  >
    <p class="page-back not-on-paper">
      <a href="/shelf/count">Count the shelf</a>
    </p>
    <h1 class="page-title">Pantry door</h1>
    <p class="page-line">
      {heading}. Tick one box for every jar, bag or {weight} you take.
    </p>
    <p class="page-actions not-on-paper">
      <ButtonLink weight="main" href="/shelf/tallies">
        Enter a sheet
      </ButtonLink>
      <span class="hint">Print it from the browser; it fits one or two sides of paper.</span>
    </p>
    <table class={linesOf(families) <= mostAtFullSize ? 'door-sheet' : 'door-sheet door-dense'}>
      <caption class="heard-only">What is there, how long it has to reach, and boxes to tick</caption>
      <thead>
        <tr>
          <th scope="col">item</th>
          <th scope="col" class="number">
            have
          </th>
          <th scope="col" class="number">
            need
          </th>
          <th scope="col" class="number">
            weeks left
          </th>
          <th scope="col">where</th>
          <th scope="col">taken</th>
        </tr>
      </thead>
      {families.map((family) => (
        <tbody key={family.name}>
          <tr class="door-family">
            <th scope="rowgroup" colSpan={6}>
              {family.name}
            </th>
          </tr>
          {family.lines.map((line) => (
            <tr key={line.itemId}>
              <th scope="row">
                <ItemName item={line.item} />
              </th>
              <td class="number">{line.have}</td>
              <td class="number">{line.need}</td>
              <td class="number">{line.weeksLeft}</td>
              <td class="door-where">{line.where}</td>
              <td>
                <Boxes count={line.boxes} />
              </td>
            </tr>
          ))}
        </tbody>
      ))}
    </table>
  </Page>
);

const side = 4;
const step = 5;

/** Boxes in fives, so that a tally is read at a glance. */
const Boxes = ({ count }: { count: number }) => {
  const left = (box: number): number => box * step + Math.floor(box / 5) * 2;
  const width = left(count - 1) + side + 0.5;
  return (
    <svg
      class="door-boxes"
      viewBox={`-0.25 -0.25 ${width} ${side + 0.5}`}
      width={`${width}mm`}
      height={`${side + 0.5}mm`}
    >
      <title>{counted(count, 'box')}</title>
      {Array.from({ length: count }, (_, box) => (
        <rect key={`box-${left(box)}`} x={left(box)} y={0} width={side} height={side} />
      ))}
    </svg>
  );
};
