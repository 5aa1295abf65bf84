import { renderToString } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { ItemsPage, type ItemsPageProps } from '../../../views/pages/items/items-page.tsx';
import { glossary } from '../../../views/pages/words/glossary.ts';
import { formOf, wordsOf } from '../../builders/visitor.ts';
import { aFrame, someKeys } from '../page-props.ts';

const page = (over: Partial<ItemsPageProps> = {}) =>
  renderToString(
    <ItemsPage
      frame={aFrame}
      preserves={[]}
      staples={[]}
      supplies={[]}
      guesses={[]}
      retired={[]}
      {...over}
    />,
  );

describe('the page of what is kept', () => {
  test('empty, each part says what to do first', () => {
    const words = wordsOf(page());

    expect(words).toContain('Nothing is put up yet. Choose from the recipe book');
    expect(words).toContain('No staples yet.');
    expect(words).toContain('Sugar, vinegar and the like come with the recipes that need them.');
    expect(words).not.toContain('No longer kept');
    expect(words).not.toContain('Our guesses');
  });

  test('guesses are few and open, or many and folded, each with the way to put it right', () => {
    const guess = (number: number) => ({
      key: `guess-${number}`,
      words: `Your pear dates ${number} are our guess: 18 jars depend on them`,
      figure: 'Aug 25 to Sep 20.',
      step: { words: 'Write your dates', href: `/harvest/pears-${number}` },
    });
    const few = page({ guesses: [guess(1)] });
    const many = page({ guesses: Array.from({ length: 9 }, (_, number) => guess(number)) });

    expect(few).toContain('<details class="guess-fold" open');
    expect(few).toContain('href="/harvest/pears-1"');
    expect(many).toContain('<details class="guess-fold">');
    expect(wordsOf(many)).toContain('We filled in 9 figures for you, and the plan counts on them');
  });

  test('what was retired can be brought back by a form of its own', () => {
    const html = page({
      retired: [
        {
          itemId: 'plum-jam',
          item: { name: 'Plum jam', family: 'stone-fruit' },
          on: 'Aug 17, 2026',
          left: '2 half-pints',
          keys: someKeys,
        },
      ],
    });

    expect(formOf(html, '/items/plum-jam/return').values.key).toBe(someKeys.key);
    expect(html).toContain('aria-label="Bring back Plum jam"');
  });
});

describe('the glossary', () => {
  test('explains each word once, in a sentence that ends', () => {
    const words = glossary.flatMap((group) => group.words);

    expect(new Set(words.map(({ word }) => word)).size).toBe(words.length);
    for (const { word, means } of words) expect(means, word).toMatch(/[.]$/);
  });
});
