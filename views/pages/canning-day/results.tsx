import type { sealCheckForm } from '../../../shared/schemas/canning-session.ts';
import { Button, ButtonLink } from '../../parts/button.tsx';
import { hasProblems, InputField, RadioField, type StateOf } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';
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
  readonly state: StateOf<typeof sealCheckForm>;
  readonly tests: readonly string[];
  readonly choices: readonly { readonly value: string; readonly words: string }[];
}

export interface ResultProps {
  readonly key: string;
  readonly name: string;
  /** What was written down, one line each. */
  readonly lines: readonly string[];
  /** Due once every load of it had its time, or its day is over; before, it is only possible. */
  readonly writeDown: { readonly href: string; readonly words: string; readonly isDue: boolean };
  readonly seals: readonly SealCheckProps[];
}

const said = {
  title: 'What came out',
  id: 'results',
  line: 'Only what is written down here stands on the shelf.',
} as const;

/** Nothing is written down, and nothing is due to be. */
export const isNothingOut = (results: readonly ResultProps[]): boolean =>
  results.every(({ lines, writeDown }) => lines.length === 0 && !writeDown.isDue);

/** What came out of each batch, and the next day's look at the seals. */
export const Results = ({ results }: { results: readonly ResultProps[] }) => (
  <Part {...said}>
    <ResultList results={results} />
  </Part>
);

/** The same, among what is a tap away. */
export const FoldedResults = ({ results }: { results: readonly ResultProps[] }) => (
  <FoldedPart {...said}>
    <ResultList results={results} />
  </FoldedPart>
);

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
    {seal.form === null ? null : <SealForm {...seal.form} />}
  </div>
);

const SealForm = ({ action, state, tests, choices }: SealFormProps) => (
  <details open={hasProblems(state)}>
    <summary>Write down the seal check</summary>
    <ul class="bullets">
      {tests.map((test) => (
        <li key={test}>{test}</li>
      ))}
    </ul>
    <PostForm action={action} form={state} label="Seal check">
      <InputField
        form={state}
        name="failed"
        label="How many did not seal"
        inputMode="numeric"
        width="short"
      />
      <RadioField form={state} name="choice" label="What is done with those" choices={choices} />
      <p>
        <Button weight="main">Seals checked</Button>
      </p>
    </PostForm>
  </details>
);
