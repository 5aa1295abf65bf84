import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormState, InputField, SelectField } from '../../parts/fields.tsx';
import { type Choice, type FormKeys, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { AsideActions } from './set-aside-page.tsx';

export interface Fact {
  readonly name: string;
  readonly value: string;
}

export interface LotPageProps {
  readonly frame: Frame;
  readonly lotId: string;
  readonly item: ItemLabel;
  readonly code: string;
  readonly facts: readonly Fact[];
  /** How it was processed; empty when nothing is written down. */
  readonly evidence: readonly Fact[];
  readonly noEvidence: string;
  /** Why it stands aside; null when it does not. */
  readonly aside: string | null;
  readonly isEmpty: boolean;
  readonly keys: FormKeys;
  readonly doubt: FormState<Readonly<Record<'reason', string>>>;
  /** What is wrong with the batch as a whole; null where nothing is. */
  readonly problem: string | null;
  readonly takeFrom: string;
  /** Other places it can be carried to; null when nothing is left of it or there is no other place. */
  readonly move: {
    readonly form: FormState<Readonly<Record<'placeId', string>>>;
    readonly to: readonly Choice[];
  } | null;
}

/** One batch: what is left, how it was processed, and whether it stands aside. */
export const LotPage = (props: LotPageProps) => (
  <Page
    frame={props.frame}
    title={`${props.item.name}, batch ${props.code}`}
    section="shelf"
    about="One batch, and how it was processed."
  >
    <p class="page-back">
      <a href={props.takeFrom}>{props.item.name}</a>
    </p>
    <h1 class="page-title">
      <ItemName item={props.item} />
    </h1>
    <p class="page-line">{`Batch ${props.code}`}</p>
    {props.aside === null ? null : (
      <p class="banner banner-problem" role="alert">
        <strong>Set aside: do not eat. </strong>
        {props.aside}
      </p>
    )}
    {props.problem === null ? null : (
      <p class="banner banner-problem" role="alert">
        {props.problem}
      </p>
    )}
    <Facts facts={props.facts} />
    <Part title="How it was processed" id="evidence">
      {props.evidence.length === 0 ? (
        <EmptyState text={props.noEvidence} />
      ) : (
        <Facts facts={props.evidence} />
      )}
    </Part>
    {props.move === null ? null : (
      <Part title="Move it" id="move" line="Move everything left of this batch to another place.">
        <PostForm
          action={`/batches/${props.lotId}/moves`}
          keys={props.move.form.keys}
          label="Move this batch"
        >
          <SelectField form={props.move.form} name="placeId" label="It is now in" choices={props.move.to} />
          <p>
            <Button>Move this batch</Button>
          </p>
        </PostForm>
      </Part>
    )}
    {props.isEmpty ? null : (
      <Part title="In doubt" id="standing">
        {props.aside === null ? (
          <PostForm
            action={`/batches/${props.lotId}/standing`}
            keys={props.doubt.keys}
            label="Set this batch aside"
          >
            <InputField
              form={props.doubt}
              name="reason"
              label="Why you doubt it"
              hint="For example: acid forgotten."
              width="full"
            />
            <p>
              <Button name="standing" value="set-aside">
                Set this batch aside
              </Button>
            </p>
          </PostForm>
        ) : (
          <AsideActions lotId={props.lotId} keys={props.keys} words={`batch ${props.code}`} />
        )}
        <p class="more">
          <a href="/found-unsealed">A jar of it is swollen, leaking or unsealed</a>
        </p>
      </Part>
    )}
  </Page>
);

const Facts = ({ facts }: { facts: readonly Fact[] }) => (
  <dl class="facts facts-long">
    {facts.map(({ name, value }) => (
      <div key={name}>
        <dt>{name}</dt>
        <dd>{value}</dd>
      </div>
    ))}
  </dl>
);
