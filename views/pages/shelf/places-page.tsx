import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type Choice, type FormKeys, PostForm, SelectField } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { UndoBar, type UndoBarProps } from './undo-bar.tsx';

export interface PlacesPageProps {
  readonly frame: Frame;
  readonly undo: UndoBarProps;
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
  /** Where batches can be carried from here; null where there is nothing to carry or nowhere to carry it. */
  readonly move: { readonly keys: FormKeys; readonly to: readonly Choice[] } | null;
}

/** What stands where. */
export const PlacesPage = ({ frame, undo, places }: PlacesPageProps) => (
  <Page frame={frame} title="Places" section="shelf" about="What stands in which place, batch by batch.">
    <p class="page-back">
      <a href="/shelf">Shelf</a>
    </p>
    <h1 class="page-title">Places</h1>
    <p class="page-line">What stands where, first to be eaten first. Tick what you carried elsewhere.</p>
    <UndoBar {...undo} />
    {places.map((place) => (
      <Part key={place.id} id={`place-${place.id}`} title={place.name}>
        {place.lots.length === 0 ? (
          <EmptyState text="Nothing is kept here." />
        ) : place.move === null ? (
          <PlaceTable place={place} />
        ) : (
          <PostForm
            action="/shelf/moves"
            keys={place.move.keys}
            label={`Move from ${place.name}`}
            class="carry"
          >
            <PlaceTable place={place} />
            <div class="form-row">
              <SelectField
                form={`move-${place.id}`}
                name="placeId"
                label="Move what is ticked to"
                value=""
                choices={place.move.to}
              />
              <p>
                <Button>Move</Button>
              </p>
            </div>
          </PostForm>
        )}
      </Part>
    ))}
  </Page>
);

const PlaceTable = ({ place }: { place: PlaceProps }) => (
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
        <span key="name" class="carried">
          {place.move === null ? null : (
            <label class="choice">
              <input type="checkbox" name="lotIds" value={lot.id} />
              <span class="heard-only">{`Move batch ${lot.code} of ${lot.item.name}`}</span>
            </label>
          )}
          <ItemName item={lot.item} />
        </span>,
        lot.left,
        <a key="lot" href={`/batches/${lot.id}`}>
          {lot.code}
        </a>,
        lot.bestUntil,
      ],
    }))}
  />
);
