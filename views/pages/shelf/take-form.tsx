import { Button } from '../../parts/button.tsx';
import { type FieldProblems, type FormKeys, InputField, PostForm, RadioField } from '../../parts/form.tsx';

/** Taking a unit: one touch for eaten, two for everything else that can become of it. */
export interface TakeFormProps {
  readonly itemId: string;
  readonly itemName: string;
  /** The lot whose turn it is, first expired first. */
  readonly lotId: string;
  /** The person chose this lot themselves, so several come from it alone. */
  readonly picked: boolean;
  /** False for a lot that is set aside: it can only be thrown away. */
  readonly mayBeEaten: boolean;
  /** "Take the pint marked", the code to look for, and where: ", cellar bay 2." */
  readonly which: { readonly one: string; readonly code: string; readonly where: string };
  /** Plural of the unit, "jars", behind the field for several at once. */
  readonly unit: string;
  /** `row`: the answer replaces the item's row. `page`: the whole page comes again. */
  readonly answers: 'row' | 'page';
  /** Days offered by name, today first; the last choice is another day. */
  readonly days: readonly { readonly value: string; readonly words: string }[];
  readonly keys: FormKeys;
  readonly typed: TakeTyped;
  /** Open the other outcomes: a form that was sent back with problems. */
  readonly open: boolean;
}

export interface TakeTyped {
  readonly units: string;
  readonly day: string;
  readonly date: string;
  readonly problems: FieldProblems;
}

export const TakeForm = (props: TakeFormProps) => (
  <PostForm
    class="take"
    action={`/shelf/${props.itemId}/takes`}
    label={`Take ${props.itemName}`}
    keys={props.keys}
    problems={props.typed.problems}
    {...(props.answers === 'row' ? { replaces: `#item-${props.itemId}` } : {})}
  >
    <input type="hidden" name="lotId" value={props.lotId} />
    <input type="hidden" name="answers" value={props.answers} />
    {props.picked ? <input type="hidden" name="picked" value="yes" /> : null}
    {props.mayBeEaten ? (
      <Button weight="main" big name="outcome" value="took-one" label={`Took one: ${props.itemName}`}>
        Took one
      </Button>
    ) : null}
    <p class="take-which">
      {props.which.one} <b class="batch-code">{props.which.code}</b>
      {props.which.where}
    </p>
    <details class="take-other" open={props.open}>
      <summary>
        Several, another day, or not eaten<span class="heard-only">{`: ${props.itemName}`}</span>
      </summary>
      <TakeDetails {...props} />
    </details>
  </PostForm>
);

const TakeDetails = ({ itemId, unit, days, typed, mayBeEaten }: TakeFormProps) => (
  <div class="take-details">
    <InputField
      form={itemId}
      name="units"
      label="How many"
      value={typed.units}
      inputMode="decimal"
      width="short"
      unit={unit}
      problem={typed.problems.units}
    />
    <RadioField
      form={itemId}
      name="day"
      label="When"
      value={typed.day}
      choices={days}
      problem={typed.problems.day}
    />
    <InputField
      form={itemId}
      name="date"
      type="date"
      label="The other day"
      value={typed.date}
      problem={typed.problems.date}
    />
    <div class="take-outcomes">
      {mayBeEaten ? (
        <>
          <Button name="outcome" value="taken">
            Taken to eat
          </Button>
          <Button name="outcome" value="given-away">
            Given away
          </Button>
        </>
      ) : null}
      <Button name="outcome" value="not-to-taste">
        Discarded: not to our taste
      </Button>
      <Button name="outcome" value="unsealed">
        Swollen, leaking or unsealed
      </Button>
    </div>
    <p class="hint">
      Swollen, leaking, spurting or unsealed: do not taste it. Press the last button and follow what it says.
    </p>
  </div>
);
