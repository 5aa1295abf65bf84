import { EmptyState, Part } from '../../parts/part.tsx';

export interface BeforeTheDayProps {
  /** `Pick and buy by Thursday, August 20` */
  readonly buyBy: string;
  readonly errands: readonly {
    readonly key: string;
    readonly quantity: string;
    readonly what: string;
    readonly where: string;
  }[];
  readonly setOut: readonly { readonly title: string; readonly lines: readonly string[] }[];
  /** By-products, each with the day by which it must be used. */
  readonly byProducts: readonly string[];
}

/** What is fetched and set out before the stove is lit, and what will be left over. */
export const BeforeTheDay = ({ before }: { before: BeforeTheDayProps }) => (
  <>
    <Errands buyBy={before.buyBy} errands={before.errands} />
    <SetOut groups={before.setOut} />
    <LeftOver byProducts={before.byProducts} />
  </>
);

const Errands = ({ buyBy, errands }: Pick<BeforeTheDayProps, 'buyBy' | 'errands'>) => (
  <Part title={buyBy} id="pick-and-buy">
    {errands.length === 0 ? (
      <EmptyState text="Nothing to fetch for this day." />
    ) : (
      <ul class="errands">
        {errands.map((errand) => (
          <li key={errand.key}>
            <span class="errand-quantity stamp">{errand.quantity}</span>
            <span class="errand-what">
              {errand.what} <span class="errand-where">{errand.where}</span>
            </span>
          </li>
        ))}
      </ul>
    )}
  </Part>
);

const SetOut = ({ groups }: { groups: BeforeTheDayProps['setOut'] }) => (
  <Part title="Set out" id="set-out">
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
  </Part>
);

const LeftOver = ({ byProducts }: { byProducts: readonly string[] }) =>
  byProducts.length === 0 ? null : (
    <Part title="Left over" id="left-over">
      <ul class="bullets">
        {byProducts.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
    </Part>
  );
