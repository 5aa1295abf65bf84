import type { packForm } from '../../../shared/schemas/item.ts';
import { Button } from '../../parts/button.tsx';
import { CheckField, hasProblems, InputField, type StateOf } from '../../parts/fields.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

export interface PackFormProps extends StateOf<typeof packForm, 'itemId' | 'packId'> {
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
  const { packId, removal } = pack;
  return (
    <details class="fold" open={hasProblems(pack)}>
      <summary>{pack.words}</summary>
      <PostForm
        action={packId === '' ? `/items/${itemId}/packs` : `/items/${itemId}/packs/${packId}`}
        form={pack}
        label={pack.words}
      >
        <div class="form-row">
          <InputField
            form={pack}
            name="units"
            label="In a pack"
            inputMode="decimal"
            width="short"
            unit={pack.unit}
          />
          <InputField form={pack} name="price" label="Price" inputMode="decimal" width="short" money />
        </div>
        <div class="form-row">
          <InputField
            form={pack}
            name="saleFromMonth"
            label="On sale from month"
            hint="1 is January. Leave blank for no sale."
            inputMode="numeric"
            width="short"
          />
          <InputField
            form={pack}
            name="saleUntilMonth"
            label="On sale until month"
            inputMode="numeric"
            width="short"
          />
          <InputField
            form={pack}
            name="salePrice"
            label="Sale price"
            inputMode="decimal"
            width="short"
            money
          />
        </div>
        {pack.isMadeHere ? (
          <CheckField
            form={pack}
            name="mayBuy"
            label="The plan may buy it"
            hint="Where that costs less than making it, or none can be made in time. Otherwise it is here to compare."
            value="yes"
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
