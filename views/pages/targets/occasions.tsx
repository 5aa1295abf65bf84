import type { occasionForm } from '../../../shared/schemas/occasion.ts';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { CheckField, hasProblems, InputField, RadioField, type StateOf } from '../../parts/fields.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

/** Dated units beyond everyday use: feasts, gifts, and what was promised. They never train the forecast. */
export interface OccasionsProps {
  readonly itemId: string;
  readonly unit: string;
  readonly lines: readonly OccasionLine[];
  readonly form: StateOf<typeof occasionForm, 'itemId'>;
}

export interface OccasionLine {
  readonly id: string;
  readonly on: string;
  readonly kind: string;
  readonly units: string;
  readonly note: string;
  readonly repeats: string;
  readonly removeKeys: FormKeys;
}

const kinds: readonly Choice[] = [
  { value: 'occasion', words: 'Occasion at our table' },
  { value: 'gift', words: 'Gift' },
  { value: 'promised', words: 'Promised: kept back until then' },
];

export const Occasions = ({ itemId, unit, lines, form }: OccasionsProps) => (
  <Part id="occasions" title="Occasions, gifts and promises" line="Dated, on top of everyday use.">
    {lines.length === 0 ? (
      <EmptyState text="None yet." />
    ) : (
      <DataTable
        caption="Occasions, gifts and promises"
        columns={[
          { title: 'day', heading: true },
          { title: 'kind' },
          { title: unit, kind: 'number' },
          { title: 'note' },
          { title: 'again' },
          { title: 'change' },
        ]}
        rows={lines.map((line) => ({
          key: line.id,
          cells: [
            line.on,
            line.kind,
            line.units,
            line.note,
            line.repeats,
            <RemoveOccasion key="remove" itemId={itemId} line={line} />,
          ],
        }))}
      />
    )}
    <details class="add-occasion" open={hasProblems(form)}>
      <summary>Add one</summary>
      <PostForm action={`/targets/${itemId}/occasions`} form={form} label="Add an occasion, gift or promise">
        <RadioField form={form} name="kind" label="Kind" choices={kinds} />
        <div class="form-row">
          <InputField form={form} name="onDate" type="date" label="Day" />
          <InputField
            form={form}
            name="units"
            label="How many"
            inputMode="decimal"
            width="short"
            unit={unit}
          />
        </div>
        <InputField form={form} name="note" label="What for" />
        <CheckField form={form} name="yearly" label="Every year" />
        <p>
          <Button weight="main">Add</Button>
        </p>
      </PostForm>
    </details>
  </Part>
);

const RemoveOccasion = ({ itemId, line }: { itemId: string; line: OccasionLine }) => (
  <PostForm
    class="inline-form"
    action={`/targets/${itemId}/occasions/${line.id}/removal`}
    keys={line.removeKeys}
  >
    <Button weight="quiet" label={`Remove: ${line.kind}, ${line.on}`}>
      Remove
    </Button>
  </PostForm>
);
