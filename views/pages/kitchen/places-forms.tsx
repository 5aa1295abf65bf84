import { counted } from '../../../shared/counting.ts';
import type { placeAsTyped } from '../../../shared/schemas/kitchen.ts';
import { Button } from '../../parts/button.tsx';
import { hasProblems, InputField, SelectField, type StateOf } from '../../parts/fields.tsx';
import type { Choice, FormKeys } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { KitchenForm, type Said } from './kitchen-form.tsx';

export interface PlaceFormProps extends StateOf<typeof placeAsTyped, 'volumeUnit'> {
  /** Null for a place that is being added. */
  readonly placeId: string | null;
  readonly title: string;
  /** "cellar, holds 60 qt" */
  readonly state: string | null;
  readonly volume: 'qt' | 'L';
  /** Null for a place that is being added. */
  readonly removeKeys: FormKeys | null;
}

export interface PlacesProps {
  readonly places: readonly PlaceFormProps[];
  readonly adding: PlaceFormProps;
}

const kinds: readonly Choice[] = [
  { value: 'shelf', words: 'shelf' },
  { value: 'cellar', words: 'cellar' },
  { value: 'freezer', words: 'freezer' },
  { value: 'refrigerator', words: 'refrigerator' },
];

/** Where jars, bags and bins stand. */
export const Places = ({ places, adding, said }: PlacesProps & Said) => (
  <Part
    id="places"
    title="Places"
    line="Where you keep things. The plan freezes no more than your freezers hold."
    said={said}
    folded={{ words: counted(places.length, 'place'), open: hasProblems(adding, ...places) }}
  >
    {places.length === 0 ? <EmptyState text="No place has a name yet." /> : null}
    {places.map((place) => (
      <PlaceForm key={place.placeId} {...place} />
    ))}
    <PlaceForm {...adding} />
  </Part>
);

const PlaceForm = ({ placeId, title, state, volume, removeKeys, ...form }: PlaceFormProps) => (
  <details class="fold" id={form.formId} open={hasProblems(form)}>
    <summary>
      <strong>{title}</strong>
      {state === null ? null : <span class="quiet">{` ${state}`}</span>}
    </summary>
    <KitchenForm
      part="places"
      action={placeId === null ? '/kitchen/places' : `/kitchen/places/${placeId}`}
      form={form}
      label={title}
    >
      <input type="hidden" name="volumeUnit" value={volume} />
      <div class="form-row">
        <InputField form={form} name="name" label="Name" />
        <SelectField form={form} name="kind" label="Kind" choices={kinds} />
        <InputField
          form={form}
          name="capacity"
          label="Room for"
          hint="Leave blank if you haven’t measured it."
          inputMode="decimal"
          width="short"
          unit={volume}
        />
      </div>
      <p>
        <Button weight="main">{placeId === null ? 'Add this place' : 'Save'}</Button>
      </p>
    </KitchenForm>
    {placeId === null || removeKeys === null ? null : (
      <KitchenForm
        part="places"
        class="inline-form"
        action={`/kitchen/places/${placeId}/removal`}
        keys={removeKeys}
      >
        <Button weight="quiet">{`Remove ${title}`}</Button>
      </KitchenForm>
    )}
  </details>
);
