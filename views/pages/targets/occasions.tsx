import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import {
  CheckField,
  type Choice,
  type FieldProblems,
  type FormKeys,
  InputField,
  PostForm,
  RadioField,
} from '../../parts/form.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';

/** Dated units beyond everyday use: feasts, gifts, and what was promised. They never train the forecast. */
export interface OccasionsProps {
  readonly itemId: string;
  readonly unit: string;
  readonly lines: readonly OccasionLine[];
  readonly keys: FormKeys;
  readonly values: OccasionValues;
  readonly problems: FieldProblems;
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

export interface OccasionValues {
  readonly kind: string;
  readonly onDate: string;
  readonly units: string;
  readonly note: string;
  readonly yearly: boolean;
}

const kinds: readonly Choice[] = [
  { value: 'occasion', words: 'Occasion at our table' },
  { value: 'gift', words: 'Gift' },
  { value: 'promised', words: 'Promised: kept back until then' },
];

export const Occasions = ({ itemId, unit, lines, keys, values, problems }: OccasionsProps) => (
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
    <details class="add-occasion" open={Object.keys(problems).length > 0}>
      <summary>Add one</summary>
      <PostForm
        action={`/targets/${itemId}/occasions`}
        keys={keys}
        problems={problems}
        label="Add an occasion, gift or promise"
      >
        <RadioField
          form="occasion"
          name="kind"
          label="Kind"
          value={values.kind}
          choices={kinds}
          problem={problems.kind}
        />
        <div class="form-row">
          <InputField
            form="occasion"
            name="onDate"
            type="date"
            label="Day"
            value={values.onDate}
            problem={problems.onDate}
          />
          <InputField
            form="occasion"
            name="units"
            label="How many"
            value={values.units}
            inputMode="decimal"
            width="short"
            unit={unit}
            problem={problems.units}
          />
        </div>
        <InputField
          form="occasion"
          name="note"
          label="What for"
          value={values.note}
          problem={problems.note}
        />
        <CheckField form="occasion" name="yearly" label="Every year" checked={values.yearly} />
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
