import type { handTargetForm } from '../../../shared/schemas/declared-use.ts';
import { Button } from '../../parts/button.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { InputField, type StateOf } from '../../parts/fields.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

/** What a yearly target is made of, and the household's right to set it by hand. */
export interface YearNeedProps {
  readonly itemId: string;
  readonly target: string;
  readonly unit: string;
  /** From what the year needs to what is still missing. */
  readonly parts: readonly NeedPart[];
  /** How much of it would be thrown away in an ordinary year; null when hardly any. */
  readonly waste: string | null;
  /** "68 pints are 5 batches: 105 lb of peaches." */
  readonly produce: readonly string[];
  readonly byHand: ByHandProps;
}

export interface NeedPart {
  readonly what: string;
  readonly why: string;
  readonly units: string;
  /** A sum of what stands above it. */
  readonly isSum: boolean;
}

export interface ByHandProps {
  readonly form: StateOf<typeof handTargetForm, 'itemId'>;
  readonly releaseKeys: FormKeys;
  /** "Set by hand on Nov 3; the forecast says 61." Null while the forecast rules. */
  readonly standing: string | null;
}

export const YearNeed = ({ itemId, target, unit, parts, waste, produce, byHand }: YearNeedProps) => (
  <Part id="year-need" title="What a year needs">
    <p class="year-need-target">
      <b class="big-number">{target}</b> <span class="unit">{unit}</span>
    </p>
    {byHand.standing === null ? null : (
      <p>
        <strong>{byHand.standing}</strong>
      </p>
    )}
    <ByHand itemId={itemId} unit={unit} {...byHand} />
    <DataTable
      caption="From what a year needs to what is still missing"
      stacks={false}
      columns={[{ title: 'part', heading: true }, { title: 'why' }, { title: unit, kind: 'number' }]}
      rows={parts.map(({ what, why, units, isSum }) => ({
        key: what,
        cells: isSum
          ? [<strong key="what">{what}</strong>, why, <strong key="units">{units}</strong>]
          : [what, why, units],
      }))}
    />
    {waste === null ? null : <p>{waste}</p>}
    {produce.map((line) => (
      <p key={line}>{line}</p>
    ))}
  </Part>
);

const ByHand = ({
  itemId,
  unit,
  form,
  releaseKeys,
  standing,
}: ByHandProps & { itemId: string; unit: string }) => (
  <div class="by-hand">
    <PostForm
      action={`/targets/${itemId}/hand-target`}
      form={form}
      label="Set the target by hand"
      within="#year-need"
      besides="#target-line"
    >
      <div class="form-row">
        <InputField
          form={form}
          name="units"
          label="Set by hand"
          inputMode="decimal"
          width="short"
          unit={`${unit} a year`}
        />
        <Button weight="main">Set</Button>
      </div>
    </PostForm>
    {standing === null ? null : (
      <PostForm
        action={`/targets/${itemId}/hand-target/release`}
        keys={releaseKeys}
        label="Back to the forecast"
        within="#year-need"
        besides="#target-line"
      >
        <p>
          <Button weight="quiet">Back to the forecast</Button>
        </p>
      </PostForm>
    )}
  </div>
);
