import { EmptyState, FoldedPart } from '../../parts/part.tsx';
import { errandWhere } from '../../words/sentences.ts';

export interface BeforeTheDayProps {
  /** `Pick and buy by Thursday, August 20` */
  readonly buyBy: string;
  readonly errands: readonly {
    readonly key: string;
    /** `63 lb` */
    readonly amount: string;
    /** `about 1¼ bushels`; empty of what has no trade measure. */
    readonly about: string;
    readonly what: string;
    readonly where: string;
  }[];
  readonly setOut: readonly { readonly title: string; readonly lines: readonly string[] }[];
  /** By-products, each with the day by which it must be used. */
  readonly byProducts: readonly string[];
}

/** What is fetched before the stove is lit; This week and Buying have it to tick. */
export const Errands = ({ buyBy, errands }: Pick<BeforeTheDayProps, 'buyBy' | 'errands'>) => (
  <FoldedPart title={buyBy} id="pick-and-buy" line={firstErrand(errands)}>
    <ErrandList errands={errands} />
  </FoldedPart>
);

/** `35 lb Peaches and 6 more`: what is to be fetched, before it is opened. */
const firstErrand = ([first, ...more]: BeforeTheDayProps['errands']): string =>
  first === undefined
    ? 'Nothing'
    : `${first.amount} ${first.what}${more.length === 0 ? '' : ` and ${more.length} more`}`;

const ErrandList = ({ errands }: Pick<BeforeTheDayProps, 'errands'>) =>
  errands.length === 0 ? (
    <EmptyState text="Nothing to fetch for this day." />
  ) : (
    <ul class="errands">
      {errands.map((errand) => (
        <li key={errand.key}>
          <span class="errand-quantity stamp">{errand.amount}</span>
          <span class="errand-what">
            {errand.what} <span class="errand-where">{errandWhere(errand)}</span>
          </span>
        </li>
      ))}
    </ul>
  );

/** What stands ready, and what will be left over. */
export const SetOut = ({
  groups,
  byProducts,
}: {
  groups: BeforeTheDayProps['setOut'];
  byProducts: readonly string[];
}) => (
  <FoldedPart title="Set out" id="set-out" line={lineOf(groups)}>
    {groups.map(({ title, lines }) => (
      <div key={title} class="set-out">
        <h3>{title}</h3>
        <ul class="bullets">
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </div>
    ))}
    {byProducts.length === 0 ? null : (
      <div class="set-out">
        <h3>Left over</h3>
        <ul class="bullets">
          {byProducts.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      </div>
    )}
  </FoldedPart>
);

/** The first line of all: how many jars. */
const lineOf = (groups: BeforeTheDayProps['setOut']): string | undefined => groups[0]?.lines[0];
