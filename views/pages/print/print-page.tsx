import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { ButtonLink } from '../../parts/button.tsx';
import { Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';

/** Every sheet that goes on paper, and every way out of the program and into it. */
export const PrintPage = ({ frame }: { frame: Frame }) => (
  <Page
    frame={frame}
    title={pageNames.print}
    section="print"
    about="Sheets to print, labels, the calendar, and lists to take along or bring in."
  >
    <h1 class="page-title">{pageNames.print}</h1>
    <p class="page-line">
      Each sheet is one page. Any other page prints as well, without what only a screen needs.
    </p>
    <Part
      title="For the kitchen"
      id="sheets"
      line="What hangs at the stove, at the pantry door, on the wall."
    >
      <p class="page-actions">
        <ButtonLink href="/canning-day#sheets">Canning-day sheet</ButtonLink>
        <ButtonLink href="/shelf/sheet">Pantry-door sheet</ButtonLink>
        <ButtonLink href="/stages/paper">{pageNames.stages}, to tick by hand</ButtonLink>
        <ButtonLink href="/year/sheet">{pageNames.year} on one sheet</ButtonLink>
        <ButtonLink href="/labels">{pageNames.labels}</ButtonLink>
      </p>
    </Part>
    <Part
      title="What was written on paper"
      id="paper"
      line="Tallies from the pantry door, and a shelf that was counted."
    >
      <p class="page-actions">
        <ButtonLink href="/shelf/tallies">Enter a sheet</ButtonLink>
        <ButtonLink href="/shelf/count">Count the shelf</ButtonLink>
      </p>
    </Part>
    <Part
      title="Elsewhere"
      id="share"
      line="In your calendar, in a spreadsheet, with the people you live with."
    >
      <p class="page-actions">
        <ButtonLink href="/calendar">{pageNames.calendar}</ButtonLink>
        <ButtonLink href="/files">{pageNames.files}</ButtonLink>
        <ButtonLink href="/people">{pageNames.people}</ButtonLink>
      </p>
    </Part>
  </Page>
);
