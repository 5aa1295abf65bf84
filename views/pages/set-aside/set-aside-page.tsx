import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormState, InputField, SelectField } from '../../parts/fields.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface AsideLot {
  readonly lotId: string;
  readonly item: ItemLabel;
  /** `7 quarts of the Aug 22, 2026 batch 260822-A` */
  readonly words: string;
  readonly reason: string;
  readonly href: string;
  readonly keys: FormKeys;
}

export interface SetAsidePageProps {
  readonly frame: Frame;
  readonly aside: readonly AsideLot[];
  readonly canner: {
    readonly choices: readonly Choice[];
    readonly form: FormState<Readonly<Record<'cannerId' | 'since' | 'reason', string>>>;
  };
}

/** What stands aside, and everything of one canner in one action. */
export const SetAsidePage = ({ frame, aside, canner }: SetAsidePageProps) => (
  <Page
    frame={frame}
    title="Set aside"
    section="safety"
    about="Batches that nobody eats from until they are decided about."
  >
    <p class="page-back">
      <a href="/safety">{pageNames.safety}</a>
    </p>
    <h1 class="page-title">Set aside</h1>
    <p class="page-line">
      Nobody takes from what is set aside, and the plan does not count on it. Release it once you are sure of
      it, or discard it.
    </p>
    <Part title="Set aside now" id="aside">
      {aside.length === 0 ? (
        <EmptyState text="Nothing is set aside." />
      ) : (
        <ul class="plain-list">
          {aside.map((lot) => (
            <li key={lot.lotId}>
              <ItemName item={lot.item} /> <a href={lot.href}>{lot.words}</a>
              <p>{lot.reason}</p>
              <AsideActions lotId={lot.lotId} keys={lot.keys} words={lot.words} />
            </li>
          ))}
        </ul>
      )}
    </Part>
    <Part
      title="Everything from one canner"
      id="canner"
      line="The gauge was found wrong, or acid was forgotten all week: set aside every batch of that canner since a day."
    >
      <PostForm action="/set-aside" form={canner.form} label="Set a canner's batches aside">
        <SelectField form={canner.form} name="cannerId" label="Canner" choices={canner.choices} />
        <InputField form={canner.form} name="since" type="date" label="Processed on or after" />
        <InputField
          form={canner.form}
          name="reason"
          label="Why"
          hint="For example: gauge found 3 psi off."
          width="full"
        />
        <p>
          <Button weight="main">Set them aside</Button>
        </p>
      </PostForm>
    </Part>
    <p class="page-actions">
      <a href="/shelf">One batch alone: open it from the shelf</a>
    </p>
  </Page>
);

/** Release or discard, for a batch that stands aside. */
export const AsideActions = ({ lotId, keys, words }: { lotId: string; keys: FormKeys; words: string }) => (
  <PostForm action={`/batches/${lotId}/standing`} keys={keys} class="inline-form" label={words}>
    <Button name="standing" value="released" label={`Release: ${words}`}>
      Release
    </Button>
    <Button name="standing" value="discarded" label={`Discard: ${words}`}>
      Discard all of it
    </Button>
  </PostForm>
);
