import type { JarSize } from '../../../shared/jar.ts';
import { JarRow } from '../../charts/jar-row.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';

export interface AnswerMake {
  readonly key: string;
  readonly item: ItemLabel;
  /** `14 pints` */
  readonly comes: string;
  /** `2 batches this week` */
  readonly batches: string;
  /** As it is drawn. */
  readonly jars: { readonly count: number; readonly size: JarSize | null };
}

/** One mix of recipes, in words. */
export interface AnswerColumn {
  /** What makes it this answer and no other: its recipes, weeks and batches. */
  readonly key: string;
  /** `What the year lacks` */
  readonly title: string;
  readonly makes: readonly AnswerMake[];
  /** `3 h 20 min` */
  readonly hours: string;
  /** `21 jars`, and how many of them are missing. */
  readonly jars: string;
  /** `$14.20` */
  readonly money: string;
  /** `5 pints of peach jam`; `nothing of it`. */
  readonly lacks: string;
  /** What comes beyond what the year wants; null where nothing does. */
  readonly over: string | null;
  /** `3 lb of apple pulp, for fruit leather`; null where its batches leave nothing another could use. */
  readonly byProducts: string | null;
  /** `4 lb` */
  readonly left: string;
  /** `up to 9 bags of peach slices in syrup, frozen`; null where nothing of the rest can be. */
  readonly freeze: string | null;
}

interface GlutAnswersProps {
  readonly answers: readonly AnswerColumn[];
  readonly values: { readonly crop: string; readonly amount: string; readonly unit: string };
  /** Null where no planner runs. */
  readonly keys: (() => FormKeys) | null;
}

interface Line {
  readonly words: string;
  readonly of: (answer: AnswerColumn) => string | null;
}

/** What answers are held against each other by, in this order on the page and in the command. */
export const answerLines: readonly Line[] = [
  { words: 'Hours in the kitchen', of: ({ hours }) => hours },
  { words: 'Jars to have ready', of: ({ jars }) => jars },
  { words: 'To buy for it', of: ({ money }) => money },
  { words: 'The year still lacks', of: ({ lacks }) => lacks },
  { words: 'More than the year wants', of: ({ over }) => over },
  { words: 'Left for other batches', of: ({ byProducts }) => byProducts },
  { words: 'Left over', of: ({ left }) => left },
  { words: 'Of that, to freeze', of: ({ freeze }) => freeze },
];

/** Two or three answers beside each other, the first the one to choose where nothing speaks against it. */
export const GlutAnswers = ({ answers, values, keys }: GlutAnswersProps) => (
  <table class={`answers answers-${answers.length}`}>
    <caption class="heard-only">What the answers make, ask and leave</caption>
    <thead>
      <tr>
        <td />
        {answers.map((answer) => (
          <th key={answer.key} scope="col">
            {answer.title}
          </th>
        ))}
      </tr>
    </thead>
    <tbody>
      <tr class="answer-makes">
        <th scope="row">Makes</th>
        {answers.map((answer) => (
          <td key={answer.key}>
            <ul>
              {answer.makes.map((make) => (
                <li key={make.key} class={`family-${make.item.family}`}>
                  <JarRow {...make.jars} perRow={6} />
                  <strong class="stamp">{make.comes}</strong> <ItemName item={make.item} />{' '}
                  <span class="quiet">{make.batches}</span>
                </li>
              ))}
            </ul>
          </td>
        ))}
      </tr>
      {answerLines
        .filter(({ of }) => answers.some((answer) => of(answer) !== null))
        .map(({ words, of }) => (
          <tr key={words}>
            <th scope="row">{words}</th>
            {answers.map((answer) => (
              <td key={answer.key}>{of(answer) ?? 'nothing'}</td>
            ))}
          </tr>
        ))}
      {keys === null ? null : (
        <tr class="answer-use not-on-paper">
          <th scope="row">
            <span class="heard-only">Use it</span>
          </th>
          {answers.map((answer) => (
            <td key={answer.key}>
              <PostForm action="/glut/use" keys={keys()} class="answer-form">
                <input type="hidden" name="crop" value={values.crop} />
                <input type="hidden" name="amount" value={values.amount} />
                <input type="hidden" name="unit" value={values.unit} />
                <input type="hidden" name="answer" value={answer.key} />
                <Button weight="main" label={`Use this plan: ${answer.title}`}>
                  Use this plan
                </Button>
              </PostForm>
            </td>
          ))}
        </tr>
      )}
    </tbody>
  </table>
);
