import type { takeForm } from '../../../shared/schemas/shelf/take.ts';
import { Button } from '../../parts/button.tsx';
import { CheckField, InputField, RadioField, type StateOf } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';
import type { ItemPart } from '../../parts/item-parts.tsx';

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
  /** In sealed jars, so that one can be found swollen, leaking or unsealed. */
  readonly isSealed: boolean;
  /** From a cellar, whose bins are gone through every month. */
  readonly isSorted: boolean;
  /** False also where all that is left is promised: then it takes a second touch and a tick. */
  readonly oneTouch: boolean;
  /** What of it is promised to somebody: the tick that says it is for them, and how much is kept back. */
  readonly promise: { readonly tick: string; readonly remark: string } | null;
  /** Whose shelf this is and who looks at it; a take that has to wait on the device keeps it. */
  readonly takenBy: {
    readonly household: string;
    readonly person: string;
    readonly words: string;
    /** Members who may have taken it instead of whoever looks. */
    readonly others: readonly string[];
  };
  /** "Take the pint marked", the code to look for, and where: ", cellar bay 2." */
  readonly which: { readonly one: string; readonly code: string; readonly where: string };
  /** Plural of the unit, "jars", behind the field for several at once. */
  readonly unit: string;
  /** `row`: the answer replaces the item's row. Otherwise that part of the item's page comes again. */
  readonly answers: 'row' | ItemPart;
  /** Days offered by name, today first; the last choice is another day. */
  readonly days: readonly { readonly value: string; readonly words: string }[];
  readonly form: TakeState;
  /** Open the other outcomes: a form that was sent back with problems. */
  readonly open: boolean;
}

export type TakeState = StateOf<
  typeof takeForm,
  'itemId' | 'lotId' | 'jarKind' | 'kind' | 'reason' | 'occurredOn' | 'late' | 'takenBy',
  'day' | 'date'
>;

export const TakeForm = (props: TakeFormProps) => (
  <PostForm
    class="take"
    action={`/shelf/${props.itemId}/takes`}
    label={`Take ${props.itemName}`}
    form={props.form}
    {...(props.answers === 'row' ? { replaces: `#item-${props.itemId}` } : {})}
  >
    <input type="hidden" name="lotId" value={props.lotId} />
    <input type="hidden" name="answers" value={props.answers} />
    {props.picked ? <input type="hidden" name="picked" value="yes" /> : null}
    <input type="hidden" name="household" value={props.takenBy.household} />
    <input type="hidden" name="person" value={props.takenBy.person} />
    <input type="hidden" name="takenBy" value={props.takenBy.words} />
    {props.oneTouch ? (
      <Button weight="main" big name="outcome" value="took-one" label={`Took one: ${props.itemName}`}>
        Took one
      </Button>
    ) : null}
    <p class="take-which">
      {isKeptBack(props) ? null : <Which {...props.which} />}
      {props.promise === null ? null : `${isKeptBack(props) ? '' : ' '}${props.promise.remark}`}
    </p>
    <details class="take-other" open={props.open}>
      <summary>
        <span class="take-more" aria-hidden="true">
          More
        </span>
        <span class="take-more-words">
          {isKeptBack(props) ? 'For the promise, or not eaten' : moreWords(props)}
        </span>
        <span class="heard-only">{`: ${props.itemName}`}</span>
      </summary>
      <TakeDetails {...props} />
    </details>
  </PostForm>
);

/** All that is left is promised to somebody, so that no jar is named. */
const isKeptBack = ({ oneTouch, mayBeEaten }: TakeFormProps): boolean => mayBeEaten && !oneTouch;

const moreWords = ({ takenBy }: TakeFormProps): string =>
  takenBy.others.length === 0
    ? 'More than one, another day, or not eaten'
    : 'Somebody else, more than one, another day, or not eaten';

const Which = ({ one, code, where }: TakeFormProps['which']) => (
  <>
    {one} <b class="batch-code">{code}</b>
    {where}
  </>
);

const TakeDetails = ({
  form,
  unit,
  days,
  mayBeEaten,
  promise,
  isSealed,
  isSorted,
  takenBy,
}: TakeFormProps) => (
  <div class="take-details">
    <InputField form={form} name="units" label="How many" inputMode="decimal" width="short" unit={unit} />
    <RadioField form={form} name="day" label="When" choices={days} />
    <InputField form={form} name="date" type="date" label="The other day" />
    {promise === null ? null : <CheckField form={form} name="forPromise" label={promise.tick} />}
    <div class="take-outcomes">
      {mayBeEaten ? (
        <>
          <Button name="outcome" value="taken">
            Taken to eat
          </Button>
          {takenBy.others.map((name) => (
            <Button key={name} name="who" value={name}>
              {`${name} took it`}
            </Button>
          ))}
          <Button name="outcome" value="given-away">
            {isSealed ? 'Given away, jar and all' : 'Given away'}
          </Button>
          {isSealed ? (
            <Button name="outcome" value="given-jar-back">
              Given away, jar to come back
            </Button>
          ) : null}
        </>
      ) : null}
      <Button name="outcome" value="not-to-taste">
        Discarded: not to our taste
      </Button>
      {isSealed ? (
        <Button name="outcome" value="broken">
          Jar broke
        </Button>
      ) : null}
      {isSorted ? (
        <Button name="outcome" value="sorted-out">
          Sorted out: gone bad
        </Button>
      ) : null}
      {isSealed ? (
        <Button name="outcome" value="unsealed">
          Swollen, leaking or unsealed
        </Button>
      ) : null}
    </div>
    {isSorted ? <p class="hint">Write part of a bin as 0.5 or 0.25.</p> : null}
    {isSealed ? (
      <p class="hint">
        Swollen, leaking, spurting or unsealed: do not taste it. Press the last button and follow what it
        says.
      </p>
    ) : null}
  </div>
);
