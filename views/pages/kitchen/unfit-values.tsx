import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

export interface UnfitValueProps {
  /** What one press does about it; null where only the saved file helps. */
  readonly mend: {
    readonly table: string;
    readonly row: number;
    readonly column: string;
    readonly words: string;
    readonly keys: FormKeys;
  } | null;
  readonly words: string;
  /** Where it is mended. */
  readonly where: { readonly href: string; readonly words: string };
}

/** Stored values that no form takes: from a file of another version, or changed by hand. */
export const UnfitValues = ({
  values,
  problem,
}: {
  readonly values: readonly UnfitValueProps[];
  readonly problem: string | null;
}) =>
  values.length === 0 ? null : (
    <Part
      id="unfit"
      title="Stored, but unfit"
      line="No form takes these values, so nothing is worked out from them."
    >
      {problem === null ? null : (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <ul class="untested">
        {values.map(({ words, where, mend }) => (
          <li key={words}>
            <p class="problem">{words}</p>
            <p>
              <a href={where.href}>{where.words}</a>
            </p>
            {mend === null ? null : (
              <PostForm class="inline-form" action="/kitchen/unfit-values" keys={mend.keys}>
                <input type="hidden" name="table" value={mend.table} />
                <input type="hidden" name="row" value={mend.row} />
                <input type="hidden" name="column" value={mend.column} />
                <Button weight="quiet" label={`${mend.words}: ${words}`}>
                  {mend.words}
                </Button>
              </PostForm>
            )}
          </li>
        ))}
      </ul>
    </Part>
  );
