import type { JarSize } from '../../../shared/jar.ts';
import { JarRow } from '../../charts/jar-row.tsx';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { fieldsWith, SelectField } from '../../parts/fields.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';
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
  /** Jar by jar, those of one item beside each other; and how many quarts more would fit. */
  readonly shelf: {
    readonly standing: readonly {
      readonly key: string;
      readonly family: ItemLabel['family'];
      readonly count: number;
      readonly size: JarSize | null;
    }[];
    readonly roomQuarts: number;
  };
  /** `41 of 120 quarts. Room for 79 more.` */
  readonly room: string;
  /** Where batches can be carried from here; null where there is nothing to carry or nowhere to carry it. */
  readonly move: { readonly keys: FormKeys; readonly to: readonly Choice[] } | null;
}

/** What stands where. */
export const PlacesPage = ({ frame, undo, places }: PlacesPageProps) => (
  <Page frame={frame} title="Places" section="shelf" about="What is in which place, batch by batch.">
    <p class="page-back">
      <a href="/shelf">Shelf</a>
    </p>
    <h1 class="page-title">Places</h1>
    <p class="page-line">What is where, what to eat first on top. Tick what you moved.</p>
    <UndoBar {...undo} />
    {places.map((place) => (
      <Part key={place.id} id={`place-${place.id}`} title={place.name} line={place.room}>
        {place.lots.length === 0 ? <EmptyState text="Nothing is kept here." /> : null}
        <DrawnShelf {...place.shelf} />
        {place.lots.length === 0 ? null : (
          <details class="place-batches">
            <summary>
              Batch by batch<span class="heard-only">{` in ${place.name}`}</span>
              {place.move === null ? null : ', to move'}
            </summary>
            <Batches place={place} />
          </details>
        )}
      </Part>
    ))}
  </Page>
);

const Batches = ({ place }: { place: PlaceProps }) =>
  place.move === null ? (
    <PlaceTable place={place} />
  ) : (
    <PostForm action="/shelf/moves" keys={place.move.keys} label={`Move from ${place.name}`} class="carry">
      <PlaceTable place={place} />
      <div class="form-row">
        <SelectField
          form={fieldsWith(`move-${place.id}`, { placeId: '' })}
          name="placeId"
          label="Move what is ticked to"
          choices={place.move.to}
        />
        <Button weight="main">Move</Button>
      </div>
    </PostForm>
  );

/** So many jars of one food are drawn on one board before the next begins, so that boards fit a phone. */
const onOneBoard = 12;

/** What stands there as one sees it, and outlines where more would fit. */
const DrawnShelf = ({ standing, roomQuarts }: PlaceProps['shelf']) => (
  <ul class="shelf-of-jars" aria-hidden="true">
    {standing.flatMap(({ key, family, count, size }) =>
      Array.from({ length: Math.ceil(count / onOneBoard) }, (_, board) => (
        <li key={`${key} ${board}`} class={`family-${family}`}>
          <JarRow count={Math.min(onOneBoard, count - board * onOneBoard)} size={size} perRow={onOneBoard} />
        </li>
      )),
    )}
    {Array.from({ length: Math.ceil(roomQuarts / onOneBoard) }, (_, board) => (
      <li key={`room ${String(board)}`}>
        <JarRow
          count={Math.min(onOneBoard, roomQuarts - board * onOneBoard)}
          size="quart"
          perRow={onOneBoard}
          isRoom
        />
      </li>
    ))}
  </ul>
);

const PlaceTable = ({ place }: { place: PlaceProps }) => (
  <DataTable
    caption={`What is in ${place.name}`}
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
