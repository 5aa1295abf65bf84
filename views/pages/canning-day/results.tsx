import { Button, ButtonLink } from '../../parts/button.tsx';
import { type FieldProblems, type FormKeys, InputField, PostForm, RadioField } from '../../parts/form.tsx';
import { FoldedPart, Part } from '../../parts/part.tsx';

export interface SealCheckProps {
  readonly lotId: string;
  /** `7 quarts, batch 260822-A` */
  readonly words: string;
  /** `Check the seals Sunday between 1:05 AM and 1:05 PM.`, or what the check showed. */
  readonly when: string;
  /** Null once checked. */
  readonly form: SealFormProps | null;
}

export interface SealFormProps {
  readonly action: string;
  readonly keys: FormKeys;
  readonly tests: readonly string[];
  readonly choices: readonly { readonly value: string; readonly words: string }[];
  readonly values: { readonly failed: string; readonly choice: string };
  readonly problems: FieldProblems;
}

export interface ResultProps {
  readonly key: string;
  readonly name: string;
  /** What was written down, one line each. */
  readonly lines: readonly string[];
  /** Due once every load of it had its time; before, it is only possible. */
  readonly writeDown: { readonly href: string; readonly words: string; readonly isDue: boolean };
  readonly seals: readonly SealCheckProps[];
}

/** What came out of each batch, and the next day's look at the seals; folded while nothing can have come out yet. */
export const Results = ({ results, isFolded }: { results: readonly ResultProps[]; isFolded: boolean }) => {
  const said = {
    title: 'What came out',
    id: 'results',
    line: 'Only what is written down here stands on the shelf.',
  };
  const nothingYet = results.every(
    ({ lines, seals, writeDown }) => lines.length + seals.length === 0 && !writeDown.isDue,
  );
  return isFolded && nothingYet ? (
    <FoldedPart {...said}>
      <ResultList results={results} />
    </FoldedPart>
  ) : (
    <Part {...said}>
      <ResultList results={results} />
    </Part>
  );
};

const ResultList = ({ results }: { results: readonly ResultProps[] }) => (
  <>
    {results.map((result) => (
      <div key={result.key} class="result">
        <div class="result-head">
          <h3>{result.name}</h3>
          {result.writeDown.isDue ? (
            <ButtonLink href={result.writeDown.href} weight="main">
              {result.writeDown.words}
            </ButtonLink>
          ) : (
            <a class="button button-quiet" href={result.writeDown.href}>
              {result.writeDown.words}
            </a>
          )}
        </div>
        {result.lines.map((line) => (
          <p key={line}>{line}</p>
        ))}
        {result.seals.map((seal) => (
          <SealCheck key={seal.lotId} seal={seal} />
        ))}
      </div>
    ))}
  </>
);

const SealCheck = ({ seal }: { seal: SealCheckProps }) => (
  <div class="seal" id={`seal-${seal.lotId}`}>
    <p>
      <strong>{seal.words}</strong> {seal.when}
    </p>
    {seal.form === null ? null : <SealForm form={seal.form} lotId={seal.lotId} />}
  </div>
);

const SealForm = ({ form, lotId }: { form: SealFormProps; lotId: string }) => (
  <details open={Object.keys(form.problems).length > 0}>
    <summary>Write down the seal check</summary>
    <ul class="bullets">
      {form.tests.map((test) => (
        <li key={test}>{test}</li>
      ))}
    </ul>
    <PostForm action={form.action} keys={form.keys} problems={form.problems} label="Seal check">
      <InputField
        form={`seal-${lotId}`}
        name="failed"
        label="How many did not seal"
        value={form.values.failed}
        inputMode="numeric"
        width="short"
        problem={form.problems.failed}
      />
      <RadioField
        form={`seal-${lotId}`}
        name="choice"
        label="What is done with those"
        value={form.values.choice}
        choices={form.choices}
        problem={form.problems.choice}
      />
      <p>
        <Button weight="main">Seals checked</Button>
      </p>
    </PostForm>
  </details>
);
