import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button, ButtonLink } from '../../parts/button.tsx';
import { fieldsWith, InputField } from '../../parts/fields.tsx';
import { EmptyState, Part } from '../../parts/part.tsx';
import { type ConflictLine, Conflicts } from './conflicts.tsx';
import { ShelfRow, type ShelfRowProps } from './shelf-row.tsx';
import { UndoBar, type UndoBarProps } from './undo-bar.tsx';

export interface ShelfPageProps {
  readonly frame: Frame;
  /** "312 units of 31 kinds. 3 run out before they can be had again." */
  readonly summary: string;
  readonly undo: UndoBarProps;
  readonly conflicts: readonly ConflictLine[];
  /** What was looked for; empty shows everything. */
  readonly find: string;
  readonly families: readonly ShelfFamily[];
  /** Whether the shelf can be used on this device without a signal. */
  readonly staysHere: boolean;
}

export interface ShelfFamily {
  readonly id: string;
  readonly name: string;
  readonly rows: readonly ShelfRowProps[];
}

/** What stands there, and the button that says one is gone. */
export const ShelfPage = ({ frame, summary, undo, conflicts, find, families, staysHere }: ShelfPageProps) => (
  <Page frame={frame} title="Shelf" section="shelf" about="What stands on the shelf, and taking a jar.">
    <h1 class="page-title">Shelf</h1>
    <p class="page-line">{summary}</p>
    <p class="page-actions actions-in-line">
      <ButtonLink href="/shelf/count">Count the shelf</ButtonLink>
      <ButtonLink href="/shelf/put-up">Put up or bought</ButtonLink>
      <ButtonLink href="/shelf/places">Places</ButtonLink>
      <ButtonLink href="/shelf/open">Open jars</ButtonLink>
      <ButtonLink href="/safety">Something wrong with a jar?</ButtonLink>
    </p>
    <UndoBar {...undo} />
    <Conflicts conflicts={conflicts} />
    <FindForm find={find} families={families} />
    <div id="shelf-list">
      {families.length === 0 ? <NothingFound find={find} /> : null}
      {families.map((family) => (
        <Part key={family.id} id={`family-${family.id}`} title={family.name} class="shelf-family">
          <ul class="shelf-rows">
            {family.rows.map((row) => (
              <ShelfRow key={row.itemId} {...row} />
            ))}
          </ul>
        </Part>
      ))}
    </div>
    {staysHere ? null : (
      <p class="hint">
        Is this your own device? <a href="/people/self#device">Keep the shelf on it</a> and you can take jars
        without a signal.
      </p>
    )}
  </Page>
);

const FindForm = ({ find, families }: Pick<ShelfPageProps, 'find' | 'families'>) => (
  <search class="shelf-find">
    <form
      method="get"
      action="/shelf"
      hx-get="/shelf"
      hx-trigger="input delay:200ms, submit"
      hx-target="#shelf-list"
      hx-select="#shelf-list"
      hx-swap="outerHTML"
    >
      <InputField
        form={fieldsWith('shelf', { find })}
        name="find"
        type="search"
        label="Find on the shelf"
        width="full"
      />
      <Button>Find</Button>
    </form>
    <nav class="shelf-jump" aria-label="Families">
      <ul>
        {families.map((family) => (
          <li key={family.id}>
            <a href={`#family-${family.id}`}>{family.name}</a>
          </li>
        ))}
      </ul>
    </nav>
  </search>
);

const NothingFound = ({ find }: { find: string }) =>
  find === '' ? (
    <EmptyState
      text="Nothing is on the shelf yet. Write down what stands there, or put up the first batch."
      action={{ words: 'Put up or bought', href: '/shelf/put-up' }}
    />
  ) : (
    <EmptyState
      text={`Nothing on the shelf is called “${find}”. Look for a shorter part of its name.`}
      action={{ words: 'Show everything', href: '/shelf' }}
    />
  );
