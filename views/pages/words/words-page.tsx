import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Part } from '../../parts/part.tsx';
import { elementId } from '../../words/element-id.ts';
import { pageNames } from '../../words/page-names.ts';
import { glossary } from './glossary.ts';

/** What the words of the program mean, in plain ones. */
export const WordsPage = ({ frame }: { frame: Frame }) => (
  <Page frame={frame} title={pageNames.words} section="words" about="What the words of this program mean.">
    <h1 class="page-title">{pageNames.words}</h1>
    <p class="page-line">What we mean by them here. A word that has a page links to it.</p>
    {glossary.map((group) => (
      <Part key={group.title} title={group.title} id={elementId('words', group.title)}>
        <dl class="glossary">
          {group.words.map(({ word, means, href }) => (
            <div key={word}>
              <dt id={elementId('word', word)}>{href === undefined ? word : <a href={href}>{word}</a>}</dt>
              <dd>{means}</dd>
            </div>
          ))}
        </dl>
      </Part>
    ))}
  </Page>
);
