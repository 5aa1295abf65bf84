import { Button } from '../../parts/button.tsx';
import { CheckField, type FormKeys, InputField, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import type { FormState } from '../kitchen/form-state.ts';

export type PackValues = Readonly<
  Record<'units' | 'price' | 'saleFromMonth' | 'saleUntilMonth' | 'salePrice' | 'mayBuy', string>
>;

export interface PackFormProps extends FormState<PackValues> {
  /** Empty for a new one. */
  readonly packId: string;
  /** "5 lb for $15.49", "Add a pack" */
  readonly words: string;
  readonly unit: string;
  /** It is put up here; a store's price stands beside, and is bought only where that is allowed. */
  readonly isMadeHere: boolean;
  /** Null where it cannot be taken off. */
  readonly removal: FormKeys | null;
}

/** Packs as stores sell them, with their prices and sales; of what is made here, to compare. */
export const PackForms = ({
  itemId,
  packs,
  storeBeside,
}: {
  itemId: string;
  packs: readonly PackFormProps[];
  storeBeside: readonly string[];
}) => (
  <Part
    {...(packs.some(({ isMadeHere }) => isMadeHere)
      ? { title: 'Make it or buy it', line: storeBeside.join(' ') }
      : { title: 'Packs and prices', line: 'The plan buys whole packs, the cheapest that do.' })}
    id="packs"
  >
    {packs.map((pack) => (
      <PackForm key={pack.packId} itemId={itemId} pack={pack} />
    ))}
  </Part>
);

const PackForm = ({ itemId, pack }: { itemId: string; pack: PackFormProps }) => {
  const { packId, keys, values, problems, removal } = pack;
  const form = `pack-${packId}`;
  return (
    <details class="fold" open={Object.keys(problems).length > 0}>
      <summary>{pack.words}</summary>
      <PostForm
        action={packId === '' ? `/items/${itemId}/packs` : `/items/${itemId}/packs/${packId}`}
        keys={keys}
        problems={problems}
        label={pack.words}
      >
        <div class="form-row">
          <InputField
            form={form}
            name="units"
            label="In a pack"
            value={values.units}
            inputMode="decimal"
            width="short"
            unit={pack.unit}
            problem={problems.units}
          />
          <InputField
            form={form}
            name="price"
            label="Price"
            value={values.price}
            inputMode="decimal"
            width="short"
            money
            problem={problems.price}
          />
        </div>
        <div class="form-row">
          <InputField
            form={form}
            name="saleFromMonth"
            label="On sale from month"
            hint="1 is January. Leave blank for no sale."
            value={values.saleFromMonth}
            inputMode="numeric"
            width="short"
            problem={problems.saleFromMonth}
          />
          <InputField
            form={form}
            name="saleUntilMonth"
            label="On sale until month"
            value={values.saleUntilMonth}
            inputMode="numeric"
            width="short"
            problem={problems.saleUntilMonth}
          />
          <InputField
            form={form}
            name="salePrice"
            label="Sale price"
            value={values.salePrice}
            inputMode="decimal"
            width="short"
            money
            problem={problems.salePrice}
          />
        </div>
        {pack.isMadeHere ? (
          <CheckField
            form={form}
            name="mayBuy"
            label="The plan may buy it"
            hint="Where that costs less than making it, or none can be made in time. Otherwise it is here to compare."
            value="yes"
            checked={values.mayBuy === 'yes'}
            problem={problems.mayBuy}
          />
        ) : null}
        <p>
          <Button weight="main">{packId === '' ? 'Add the pack' : 'Save'}</Button>
        </p>
      </PostForm>
      {removal === null ? null : (
        <PostForm action={`/items/${itemId}/packs/${packId}/removal`} keys={removal} class="inline-form">
          <Button weight="quiet">Take this pack off</Button>
        </PostForm>
      )}
    </details>
  );
};
