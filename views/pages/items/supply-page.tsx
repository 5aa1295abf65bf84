import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { InputField, PostForm } from '../../parts/form.tsx';
import { pageNames } from '../../words/page-names.ts';
import type { FormState } from '../kitchen/form-state.ts';

export interface SupplyPageProps {
  readonly frame: Frame;
  readonly supplyId: string;
  readonly name: string;
  /** "lb" */
  readonly unit: string;
  /** Recipes that use it. */
  readonly usedIn: string;
  readonly isGuess: boolean;
  readonly form: FormState<Readonly<Record<'packQuantity' | 'packPrice' | 'onHand', string>>>;
}

/** Pack, price and what is there of one supply. */
export const SupplyPage = ({ frame, supplyId, name, unit, usedIn, isGuess, form }: SupplyPageProps) => (
  <Page
    frame={frame}
    title={name}
    section="items"
    about={`What a pack of ${name} costs and how much is there.`}
  >
    <p class="page-back">
      <a href="/items#supplies">{pageNames.items}</a>
    </p>
    <h1 class="page-title">{name}</h1>
    <p class="page-line">{isGuess ? `${usedIn} The price is our guess: put yours in.` : usedIn}</p>
    <PostForm action={`/items/supplies/${supplyId}`} keys={form.keys} problems={form.problems} label={name}>
      <div class="form-row">
        <InputField
          form="supply"
          name="packQuantity"
          label="In a pack"
          value={form.values.packQuantity}
          inputMode="decimal"
          width="short"
          unit={unit}
          problem={form.problems.packQuantity}
        />
        <InputField
          form="supply"
          name="packPrice"
          label="Price of a pack"
          value={form.values.packPrice}
          inputMode="decimal"
          width="short"
          money
          problem={form.problems.packPrice}
        />
        <InputField
          form="supply"
          name="onHand"
          label="On hand now"
          value={form.values.onHand}
          inputMode="decimal"
          width="short"
          unit={unit}
          problem={form.problems.onHand}
        />
      </div>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </PostForm>
  </Page>
);
