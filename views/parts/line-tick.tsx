import { Button } from './button.tsx';
import { CheckField, type FormState, hasProblems, InputField } from './fields.tsx';
import { type Choice, type FormKeys, PostForm } from './form.tsx';
import { ProduceField } from './produce-field.tsx';

/** A line of the shopping list that can be said to be bought: as planned with one press, otherwise below. */
export interface LineTickProps {
  readonly line: {
    readonly week: string;
    readonly kind: string;
    readonly what: string;
    readonly pack: string;
  };
  /** The page it stands on. */
  readonly back: '/' | '/buying';
  /** `Oats, 2 lb` */
  readonly words: string;
  /** `lb`, `jars` */
  readonly unit: string;
  /** What the amount may be said in instead; empty where there is one unit. */
  readonly units: readonly Choice[];
  /** `2 lb for $3.49, today` */
  readonly planned: string;
  readonly form: LineForm;
  /** Where the same page opens the line for another amount, price or day; null where its fields stand here already. */
  readonly otherAt: string | null;
}

/** What of a line was otherwise than planned. */
export type LineForm = FormState<
  Readonly<Record<'amount' | 'amountUnit' | 'paid' | 'boughtOn', string> & Record<'rest', boolean>>
>;

export const LineTick = ({ line, back, words, unit, units, planned, form, otherAt }: LineTickProps) => (
  <PostForm
    class="line-tick"
    action={back === '/' ? '/buying/week/lines' : '/buying/lines'}
    form={form}
    {...(back === '/'
      ? { within: '#pick-and-buy', besides: '#to-know' }
      : { within: '#buying-lists', besides: '#buying-line' })}
  >
    <input type="hidden" name="week" value={line.week} />
    <input type="hidden" name="kind" value={line.kind} />
    <input type="hidden" name="what" value={line.what} />
    <input type="hidden" name="pack" value={line.pack} />
    <Button name="answer" value="bought" label={`Bought: ${words}`}>
      Bought
    </Button>
    {otherAt === null ? (
      <OtherThanPlanned
        form={form}
        words={words}
        unit={unit}
        units={units}
        planned={planned}
        open={back === '/'}
      />
    ) : (
      <a class="line-other-at" href={otherAt} aria-label={`Other than planned: ${words}`}>
        Other …
      </a>
    )}
  </PostForm>
);

/** Another amount, price or day, or not at all; on a page of little room only for the line that was asked for. */
const OtherThanPlanned = ({
  form,
  words,
  unit,
  units,
  planned,
  open,
}: Pick<LineTickProps, 'form' | 'words' | 'unit' | 'units' | 'planned'> & { readonly open: boolean }) => (
  <details class="line-other" open={open || hasProblems(form)}>
    <summary aria-label={`Other than planned: ${words}`}>Other …</summary>
    <p class="hint">{`Planned: ${planned}. Leave blank what went as planned.`}</p>
    <ProduceField form={form} name="amount" label="How much" unit={unit} units={units} />
    <InputField form={form} name="paid" label="Paid in all" inputMode="decimal" width="short" />
    <InputField form={form} name="boughtOn" label="Day" type="date" />
    <CheckField form={form} name="rest" label="Keep asking for the rest" value="asked" />
    <p class="page-actions">
      <Button name="answer" value="bought" label={`Bought like this: ${words}`}>
        Bought like this
      </Button>
      <Button weight="quiet" name="answer" value="skipped" label={`Do not buy this: ${words}`}>
        Do not buy this
      </Button>
    </p>
  </details>
);

export interface SettledLine {
  readonly id: string;
  /** `Oats, 2 lb for $3.49` */
  readonly words: string;
  /** `bought Aug 17`, `not to be bought` */
  readonly how: string;
  readonly keys: FormKeys;
}

/** What was bought or skipped, each with the way back. */
export const SettledLines = ({
  lines,
  back,
}: {
  readonly lines: readonly SettledLine[];
  readonly back: '/' | '/buying';
}) =>
  lines.length === 0 ? null : (
    <div class="settled-lines">
      <h3>Bought or skipped</h3>
      <ul class="plain-list">
        {lines.map((line) => (
          <li key={line.id}>
            <span>
              {line.words} <span class="quiet">{line.how}</span>
            </span>
            <PostForm
              class="undo-form"
              action={back === '/' ? '/buying/week/undone' : '/buying/undone'}
              keys={line.keys}
              {...(back === '/'
                ? { within: '#pick-and-buy', besides: '#to-know' }
                : { within: '#buying-lists', besides: '#buying-line' })}
            >
              <input type="hidden" name="id" value={line.id} />
              <Button weight="quiet" label={`Undo: ${line.words}`}>
                Undo
              </Button>
            </PostForm>
          </li>
        ))}
      </ul>
    </div>
  );
