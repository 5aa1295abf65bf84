import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

export interface PlacesPageProps {
  readonly frame: Frame;
  readonly places: readonly PlaceProps[];
}

/** One place with the batches that stand in it, first to be eaten first. */
export interface PlaceProps {
  readonly id: string;
  readonly name: string;
  readonly lots: readonly {
    readonly id: string;
    readonly item: ItemLabel;
    readonly code: string;
    readonly left: string;
    readonly bestUntil: string;
  }[];
}

/** What stands where. */
export const PlacesPage = ({ frame, places }: PlacesPageProps) => (
  <Page frame={frame} title="Places" section="shelf" about="What stands in which place, batch by batch.">
    <p class="page-back">
      <a href="/shelf">Shelf</a>
    </p>
    <h1 class="page-title">Places</h1>
    <p class="page-line">What stands where, first to be eaten first.</p>
    {places.map((place) => (
      <Part key={place.id} id={`place-${place.id}`} title={place.name}>
        {place.lots.length === 0 ? (
          <EmptyState text="Nothing stands here." />
        ) : (
          <DataTable
            caption={`What stands in ${place.name}`}
            columns={[
              { title: 'item', heading: true },
              { title: 'left' },
              { title: 'batch' },
              { title: 'best quality until' },
            ]}
            rows={place.lots.map((lot) => ({
              key: lot.id,
              cells: [
                <ItemName key="name" item={lot.item} />,
                lot.left,
                <a key="lot" href={`/shelf/lots/${lot.id}`}>
                  {lot.code}
                </a>,
                lot.bestUntil,
              ],
            }))}
          />
        )}
      </Part>
    ))}
  </Page>
);
