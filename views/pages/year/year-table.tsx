import { type ItemLabel, ItemName } from '../../parts/item-name.tsx';
import { sentenceCase } from '../../words/sentences.ts';

/** One item's year in a breath: `12 left. Lasts to early March. Next peaches in August. Make 20.` */
export interface YearRow {
  readonly key: string;
  readonly item: ItemLabel;
  /** `12` with its unit `jars` */
  readonly left: string;
  readonly unit: string;
  /** `to early March`, `all year`, `none now` */
  readonly lasts: string;
  readonly isGone: boolean;
  /** `then none for 9 weeks`; null when it never runs out. */
  readonly bare: string | null;
  /** `9 years in 10` */
  readonly sure: string;
  /** `peaches in August`, `any week in the shop` */
  readonly next: string;
  /** `20`, or null when nothing more is to be made or bought. */
  readonly make: string | null;
  /** `4 are still missing`, beyond what the plan makes. */
  readonly short: string | null;
  readonly makeVerb: 'Make' | 'Buy';
  /** Said in place of a number: `enough`, or what is missing and the one step that mends it. */
  readonly instead: {
    readonly words: string;
    readonly step: { readonly words: string; readonly href: string } | null;
  };
}

/** A table on a wide screen, sentences on a phone: the same words in the same order. */
export const YearTable = ({ caption, rows }: { caption: string; rows: readonly YearRow[] }) => (
  <div class="table-frame">
    <table class="data-table year-table">
      <caption class="heard-only">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">Item</th>
          <th scope="col" class="number">
            Left
          </th>
          <th scope="col">Lasts</th>
          <th scope="col">Chance of lasting</th>
          <th scope="col">Next supply</th>
          <th scope="col" class="number">
            {rows[0]?.makeVerb === 'Buy' ? 'To buy' : 'To make'}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <Row key={row.key} row={row} />
        ))}
      </tbody>
    </table>
  </div>
);

const Row = ({ row }: { row: YearRow }) => (
  <tr class={row.bare === null ? undefined : 'goes-bare'}>
    <th scope="row">
      <ItemName item={row.item} />
    </th>
    <td class="number">
      <span class="big-number">{row.left}</span> <span class="unit">{row.unit}</span>
      <span class="in-words">{row.isGone && row.bare !== null ? ' left, ' : ' left. '}</span>
    </td>
    <td>
      {row.isGone ? null : <span class="in-words">Lasts </span>}
      <span class={row.isGone ? 'only-wide' : undefined}>
        {row.lasts}
        {row.bare === null ? '' : ', '}
      </span>
      {row.bare === null ? null : <strong class="bare-words">{row.bare}</strong>}
      {row.isGone && row.bare === null ? null : <span class="in-words">. </span>}
    </td>
    <td class="only-wide quiet">{row.sure}</td>
    <td>
      <span class="in-words">Next </span>
      {row.next}
      <span class="in-words">. </span>
    </td>
    <td class={row.make === null && row.instead.step !== null ? 'instead' : 'number'}>
      {row.make === null ? (
        <Instead {...row.instead} />
      ) : (
        <>
          <span class="in-words">{row.makeVerb} </span>
          <span class="big-number">{row.make}</span>
        </>
      )}
      {row.short === null ? null : (
        <span class="small">
          <span class="in-words">; </span> {row.short}
        </span>
      )}
      <span class="in-words">.</span>
    </td>
  </tr>
);

const Instead = ({ words, step }: YearRow['instead']) =>
  step === null ? (
    <span class="quiet">
      {words === 'enough' ? <span class="in-words">That is </span> : null}
      {words}
    </span>
  ) : (
    <>
      {sentenceCase(words)}
      {': '}
      <a href={step.href}>{step.words}</a>
    </>
  );
