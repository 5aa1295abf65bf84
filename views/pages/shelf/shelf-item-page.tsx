import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { ButtonLink } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { ItemHead, type ItemHeadProps } from '../items/item-head.tsx';
import { OpenJars, type OpenJarsLine } from './open-jars.tsx';

export interface ShelfItemPageProps {
  readonly frame: Frame;
  readonly head: ItemHeadProps;
  /** How long a jar keeps once open, as the household or a published table says; null when nobody does. */
  readonly opened: string | null;
  /** Jars of it that stand open now. */
  readonly openJars: readonly OpenJarsLine[];
  readonly lots: readonly LotLine[];
  readonly history: readonly HistoryLine[];
  /** Link to earlier history; null at the beginning. */
  readonly earlier: string | null;
}

export interface LotLine {
  readonly id: string;
  readonly code: string;
  /** How it was processed, and setting it aside. */
  readonly href: string;
  /** "2 quarts" */
  readonly left: string;
  readonly made: string;
  readonly bestUntil: string;
  readonly place: string;
  /** Where its place is said or changed. */
  readonly placeHref: string;
  /** "next to take", "ready from Dec 12", "set aside: …". */
  readonly remark: string;
  /** Address that offers this batch instead of the one whose turn it is. */
  readonly takeFrom: string;
}

export interface HistoryLine {
  readonly seq: number;
  readonly on: string;
  readonly what: string;
  readonly units: string;
  readonly lot: string;
  /** Who took it; empty where the household did not say. */
  readonly who: string;
  readonly remark: string;
}

/** One item: its jar to take, its batches, its history. */
export const ShelfItemPage = (props: ShelfItemPageProps) => (
  <Page
    frame={props.frame}
    title={props.head.item.name}
    section="shelf"
    about={`${props.head.item.name}: what stands there, batch by batch, and its history.`}
    moreCss={props.frame.assets.yearCss}
  >
    <ItemHead head={props.head} current="shelf" />
    {props.opened === null ? null : <p class="page-line">{props.opened}</p>}
    <p class="page-actions">
      <ButtonLink href={`/shelf/put-up?item=${props.head.itemId}`}>Put up or bought</ButtonLink>
      <ButtonLink href={`/shelf/count?item=${props.head.itemId}`}>Count it</ButtonLink>
    </p>
    {props.openJars.length === 0 ? null : (
      <Part title="Open now" id="open">
        <OpenJars jars={props.openJars} answers="item" />
      </Part>
    )}
    <Part title="Batches" line="Taken in this order: soonest past its best first.">
      <Lots lots={props.lots} />
    </Part>
    <Part title="History" line="Nothing is ever changed or deleted here; an undo is another line.">
      <History history={props.history} earlier={props.earlier} />
    </Part>
  </Page>
);

const Lots = ({ lots }: Pick<ShelfItemPageProps, 'lots'>) =>
  lots.length === 0 ? (
    <EmptyState text="None on the shelf." />
  ) : (
    <DataTable
      caption="Batches on the shelf"
      columns={[
        { title: 'batch', heading: true },
        { title: 'left' },
        { title: 'made' },
        { title: 'best quality until' },
        { title: 'where' },
        { title: 'remark' },
        { title: 'take another' },
      ]}
      rows={lots.map((lot) => ({
        key: lot.id,
        cells: [
          <a key="batch" href={lot.href}>
            {lot.code}
          </a>,
          lot.left,
          lot.made,
          lot.bestUntil,
          <a key="place" href={lot.placeHref}>
            {lot.place === '' ? 'say where' : lot.place}
            <span class="heard-only">{`: move batch ${lot.code}`}</span>
          </a>,
          lot.remark,
          <a key="take" href={lot.takeFrom}>
            Take this<span class="heard-only">{`: batch ${lot.code}`}</span>
          </a>,
        ],
      }))}
    />
  );

const History = ({ history, earlier }: Pick<ShelfItemPageProps, 'history' | 'earlier'>) => {
  const someSaid = history.some(({ who }) => who !== '');
  return history.length === 0 ? (
    <EmptyState text="Nothing has been recorded yet." />
  ) : (
    <>
      <DataTable
        caption="Everything recorded, newest first"
        columns={[
          { title: 'day', heading: true },
          { title: 'what' },
          { title: 'units', kind: 'number' },
          { title: 'batch' },
          ...(someSaid ? [{ title: 'who took it' }] : []),
          { title: 'remark' },
        ]}
        rows={history.map((line) => ({
          key: String(line.seq),
          cells: [line.on, line.what, line.units, line.lot, ...(someSaid ? [line.who] : []), line.remark],
        }))}
      />
      {earlier === null ? null : (
        <p>
          <a href={earlier}>Earlier</a>
        </p>
      )}
    </>
  );
};
