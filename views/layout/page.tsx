import type { ComponentChildren } from 'preact';
import { Banner } from '../parts/banner.tsx';
import type { Frame, Section } from './frame.ts';
import { SiteFooter, SiteHeader } from './navigation.tsx';
import { RunningClocks } from './running-clocks.tsx';

interface PageProps {
  readonly frame: Frame;
  readonly title: string;
  readonly section: Section;
  /** One sentence for the browser and for search; not shown. */
  readonly about: string;
  /** Set on pages that only make sense on a wide screen or on paper. */
  readonly wide?: boolean;
  /** A style sheet that this page alone needs. */
  readonly moreCss?: string;
  /** Set where clocks are started: they stand there large, and the script that counts them is at hand. */
  readonly largeClocks?: boolean;
  readonly children: ComponentChildren;
}

/** The whole document around a page: head, skip link, header, main, footer. */
export const Page = ({
  frame,
  title,
  section,
  about,
  wide = false,
  largeClocks = false,
  moreCss,
  children,
}: PageProps) => (
  <html lang={frame.reading.locale}>
    <head>
      <meta charset="utf-8" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <title>{`${title} · Shelfward`}</title>
      <meta name="description" content={about} />
      <meta name="color-scheme" content="light dark" />
      <meta name="theme-color" content="#fcfdfd" media="(prefers-color-scheme: light)" />
      <meta name="theme-color" content="#151c24" media="(prefers-color-scheme: dark)" />
      <meta name="htmx-config" content='{"includeIndicatorCSS":false,"history":false}' />
      <link rel="preload" href={frame.assets.textFont} as="font" type="font/woff2" crossorigin="anonymous" />
      <link rel="preload" href={frame.assets.titleFont} as="font" type="font/woff2" crossorigin="anonymous" />
      <link rel="stylesheet" href={frame.assets.css} />
      {moreCss === undefined ? null : <link rel="stylesheet" href={moreCss} />}
      <link rel="icon" href={frame.assets.icon} type="image/svg+xml" />
      <link rel="manifest" href="/manifest.webmanifest" />
      <script src={frame.assets.htmx} defer />
      <script src="/offline.js" type="module" />
    </head>
    <body data-household={frame.householdId ?? undefined} data-person={frame.personId}>
      <a class="skip-link" href="#main">
        Skip to the page
      </a>
      <SiteHeader frame={frame} section={section} />
      <main id="main" class={wide ? 'sheet sheet-wide' : 'sheet'} tabIndex={-1}>
        <div id="message" aria-live="polite">
          {frame.message === null ? null : <Banner message={frame.message} />}
        </div>
        {children}
      </main>
      <SiteFooter frame={frame} section={section} />
      <RunningClocks clocks={frame.clocks} large={largeClocks} />
      {frame.clocks.length === 0 && !largeClocks ? null : <script src={frame.assets.clock} defer />}
    </body>
  </html>
);
