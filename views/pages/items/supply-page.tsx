import type { supplyForm } from '../../../shared/schemas/item.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { InputField, type StateOf } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface SupplyPageProps {
  readonly frame: Frame;
  readonly supplyId: string;
  readonly name: string;
  /** "lb" */
  readonly unit: string;
  /** Recipes that use it. */
  readonly usedIn: string;
  readonly isGuess: boolean;
  readonly form: StateOf<typeof supplyForm, 'supplyId'>;
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
    <PostForm action={`/items/supplies/${supplyId}`} form={form} label={name}>
      <div class="form-row">
        <InputField
          form={form}
          name="packQuantity"
          label="In a pack"
          inputMode="decimal"
          width="short"
          unit={unit}
        />
        <InputField
          form={form}
          name="packPrice"
          label="Price of a pack"
          inputMode="decimal"
          width="short"
          money
        />
        <InputField
          form={form}
          name="onHand"
          label="On hand now"
          inputMode="decimal"
          width="short"
          unit={unit}
        />
      </div>
      <p>
        <Button weight="main">Save</Button>
      </p>
    </PostForm>
  </Page>
);
