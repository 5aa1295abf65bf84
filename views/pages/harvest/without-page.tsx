import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { DataTable } from '../../parts/data-table.tsx';
import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { pageNames } from '../../words/page-names.ts';

export interface WithoutPageProps {
  readonly frame: Frame;
  /** `If you get nothing from Tomato beds in 2027` */
  readonly title: string;
  readonly words: string;
  readonly rows: readonly {
    readonly key: string;
    readonly item: ItemLabel;
    /** `18 pints instead of 27` */
    readonly putUp: string;
    readonly bought: string;
    readonly without: string;
  }[];
  /** Where another source of the crop is added. */
  readonly newSource: string;
}

/** The year beside the year without one harvest. */
export const WithoutPage = ({ frame, title, words, rows, newSource }: WithoutPageProps) => (
  <Page frame={frame} title={title} section="harvest" about="The year without one harvest." wide>
    <p class="page-back">
      <a href="/harvest">{pageNames.harvest}</a>
    </p>
    <h1 class="page-title">{title}</h1>
    <p class="page-line">{words}</p>
    {rows.length === 0 ? null : (
      <DataTable
        caption="What would be different in the weeks ahead"
        columns={[
          { title: 'food', heading: true },
          { title: 'put up' },
          { title: 'bought' },
          { title: 'likely none for' },
        ]}
        rows={rows.map(({ key, item, putUp, bought, without }) => ({
          key,
          cells: [<ItemName key="name" item={item} />, putUp, bought, without],
        }))}
      />
    )}
    <p class="more">
      <a href={newSource}>Add another source of it</a>
    </p>
  </Page>
);
