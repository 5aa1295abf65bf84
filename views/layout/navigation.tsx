import { counted } from '../../shared/counting.ts';
import { type PageName, pageNames } from '../words/page-names.ts';
import type { Frame, Section } from './frame.ts';

interface Place {
  readonly section: PageName & Section;
  readonly href: string;
}

const places: readonly Place[] = [
  { section: 'week', href: '/' },
  { section: 'year', href: '/year' },
  { section: 'shelf', href: '/shelf' },
  { section: 'harvest', href: '/harvest' },
  { section: 'buying', href: '/buying' },
  { section: 'canning', href: '/canning-day' },
  { section: 'kitchen', href: '/kitchen' },
];

/** What is needed now and then: at the foot of every page on a wide screen, on the sheet of all pages on a phone. */
const otherPlaces: readonly Place[] = [
  { section: 'search', href: '/search' },
  { section: 'targets', href: '/targets' },
  { section: 'items', href: '/items' },
  { section: 'stages', href: '/stages' },
  { section: 'safety', href: '/safety' },
  { section: 'notices', href: '/notices' },
  { section: 'look-back', href: '/look-back' },
  { section: 'print', href: '/print' },
  { section: 'words', href: '/words' },
];

const PlaceLink = ({ place, current }: { place: Place; current: Section }) => (
  <a href={place.href} aria-current={place.section === current ? 'page' : undefined}>
    {pageNames[place.section]}
  </a>
);

/**
 * Name of the household, the places, and how many notices wait. On a phone the first three stand at the thumb, and all
 * others come over the page, so that its place is kept.
 */
export const SiteHeader = ({ frame, section }: { frame: Frame; section: Section }) => (
  <header class="site-header">
    <p class="site-name">
      <span class="site-mark">Shelfward</span>
      {frame.householdName === null ? null : <span class="site-household">{frame.householdName}</span>}
    </p>
    <nav class="site-places" aria-label="Places">
      <ul>
        {places.map((place) => (
          <li key={place.href} class={`place-${place.section}`}>
            <PlaceLink place={place} current={section} />
          </li>
        ))}
        <li class="place-more">
          <button type="button" popovertarget="all-places">
            All pages
          </button>
        </li>
      </ul>
    </nav>
    {frame.householdName === null ? null : <SiteSearch label="Items and batches" />}
    {frame.householdName === null ? null : (
      <NoticeCount open={frame.openNotices} current={section === 'notices'} />
    )}
  </header>
);

/** Looks for items and batches from any page; on a phone it stands first on the sheet of all pages. */
const SiteSearch = ({ label }: { label: string }) => (
  <search aria-label={label} class="site-search">
    <form method="get" action="/search">
      <input type="search" name="q" aria-label="Search items and batches" placeholder="Item or batch" />
      <button type="submit" class="button button-quiet">
        Search
      </button>
    </form>
  </search>
);

interface NoticeCountProps {
  readonly open: number;
  readonly current?: boolean;
  /** Set when the count travels beside another part of an answer. */
  readonly beside?: boolean;
}

/** How many notices wait. */
export const NoticeCount = ({ open, current = false, beside = false }: NoticeCountProps) => (
  <p class="site-notices" id="notice-count" hx-swap-oob={beside ? 'true' : undefined}>
    <a href="/notices" aria-current={current ? 'page' : undefined}>
      {open === 0 ? 'No notices' : counted(open, 'notice')}
    </a>
  </p>
);

export const SiteFooter = ({ frame, section }: { frame: Frame; section: Section }) => (
  <footer class="site-footer">
    <nav id="all-places" class="all-places" aria-label="All pages" popover="auto">
      {frame.householdName === null ? null : <SiteSearch label="Items and batches, from all pages" />}
      <ul>
        {[...places, ...otherPlaces].map((place) => (
          <li
            key={place.href}
            class={otherPlaces.includes(place) ? `place-other place-${place.section}` : undefined}
          >
            <PlaceLink place={place} current={section} />
          </li>
        ))}
      </ul>
    </nav>
    {frame.signedInAs === null ? null : (
      <p class="quiet">
        {`Signed in as ${frame.signedInAs}. `}
        <a href="/people/self">Sign out, or change how you sign in</a>
      </p>
    )}
    {frame.isDemo ? (
      <p class="quiet">An invented household to look around in. Nothing here leaves this machine.</p>
    ) : null}
  </footer>
);
