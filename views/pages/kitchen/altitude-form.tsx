import type { altitudeAsTyped } from '../../../shared/schemas/kitchen.ts';
import { AltitudeFields } from '../../parts/altitude-fields.tsx';
import { Button } from '../../parts/button.tsx';
import { hasProblems, type StateOf } from '../../parts/fields.tsx';
import { Part } from '../../parts/part.tsx';
import { KitchenForm, type Said } from './kitchen-form.tsx';

export interface AltitudeFormProps extends StateOf<typeof altitudeAsTyped> {
  /** "1,240 ft: the tables' band from 1,001 to 3,000 ft for boiling water." Null until it was said. */
  readonly known: string | null;
  /** How what stands in the field is understood. */
  readonly seen: { readonly echo: string | null; readonly mark: string };
  /** Whether something else stands there than what is kept. */
  readonly isChanged: boolean;
}

/** Height above the sea: asked, never guessed, because every processing time hangs on it. */
export const AltitudeForm = ({ known, seen, isChanged, said, ...form }: AltitudeFormProps & Said) => (
  <Part
    id="altitude"
    title="Altitude"
    said={said}
    folded={{
      words: known === null ? 'Enter the altitude' : 'Change the altitude',
      open: known === null || isChanged || hasProblems(form),
    }}
    line={
      known ??
      'Not entered yet. Until then nothing can be canned here, because every processing time depends on it.'
    }
  >
    <KitchenForm part="altitude" action="/kitchen/altitude" form={form} label="Altitude">
      <AltitudeFields form={form} unitName="unit" echo={isChanged ? seen.echo : null} mark={seen.mark} />
      <details>
        <summary>How to find it</summary>
        <ul class="plain-list">
          <li>
            Look your address up on your country’s official map service; it prints the height of a point.
          </li>
          <li>A printed topographic map shows it by contour lines.</li>
          <li>
            The town hall, the county extension office or the nearest airfield knows it for your neighborhood.
          </li>
          <li>Between two figures, write the higher: it asks for more time or pressure, never for less.</li>
        </ul>
      </details>
      <p>
        <Button weight="main">{isChanged && seen.echo !== null ? 'Yes, keep it' : 'Save'}</Button>
      </p>
    </KitchenForm>
  </Part>
);
