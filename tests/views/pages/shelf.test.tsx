import { render } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { ShelfRow, type ShelfRowProps } from '../../../views/pages/shelf/shelf-row.tsx';
import { UndoBar } from '../../../views/pages/shelf/undo-bar.tsx';

const keys = { csrf: 'token', key: 'key-of-this-form' };

const plumJam: ShelfRowProps = {
  itemId: 'plum-jam',
  item: { name: 'Plum jam', family: 'stone-fruit', href: '/shelf/plum-jam' },
  stock: {
    left: '12',
    unit: 'half-pints',
    lasts: 'Lasts to early March. Made again in August.',
    brief: 'to early March',
    urgency: 'calm',
    remark: null,
  },
  take: {
    itemId: 'plum-jam',
    itemName: 'Plum jam',
    lotId: 'plum-jam-260801-a',
    picked: false,
    mayBeEaten: true,
    oneTouch: true,
    isSealed: true,
    isSorted: false,
    promise: null,
    takenBy: { household: 'quince-lane', person: '', words: 'Quince Lane', others: [] },
    which: { one: 'Take the half-pint marked', code: '260801-A', where: ', cellar bay 2.' },
    unit: 'jars',
    answers: 'row',
    days: [
      { value: 'today', words: 'today' },
      { value: 'other', words: 'another day' },
    ],
    form: {
      formId: 'plum-jam',
      keys,
      values: { units: '1', day: 'today', date: '', forPromise: false },
      problems: {},
    },
    open: false,
  },
  whyNot: '',
};

describe('a row of the shelf', () => {
  it('puts the one touch first, with the jar it means and the item in its name for those who hear it', () => {
    const html = render(<ShelfRow {...plumJam} />);
    const buttons = [...html.matchAll(/<button[^>]*aria-label="([^"]*)"/g)].map((found) => found[1]);

    expect(buttons).toEqual(['Took one: Plum jam']);
    expect(html.indexOf('Took one')).toBeLessThan(html.indexOf('<details'));
    expect(html).toContain('Take the half-pint marked <b class="batch-code">260801-A</b>, cellar bay 2.');
  });

  it('sends one key and the batch that was named, to its own row', () => {
    const html = render(<ShelfRow {...plumJam} />);

    expect(html.match(/name="key" value="key-of-this-form"/g)).toHaveLength(1);
    expect(html).toContain('name="lotId" value="plum-jam-260801-a"');
    expect(html).toContain('hx-target="#item-plum-jam"');
  });

  it('says everything that can become of a jar, and not to taste a suspect one before its button', () => {
    const html = render(<ShelfRow {...plumJam} />);

    for (const outcome of ['taken', 'given-away', 'not-to-taste', 'unsealed'])
      expect(html).toContain(`name="outcome" value="${outcome}"`);
    expect(html).toContain('do not taste it');
  });

  it('says only that nothing stands there when nothing does', () => {
    const html = render(<ShelfRow {...plumJam} take={null} whyNot="" />);

    expect(html).not.toContain('<form');
    expect(html).not.toContain('take-none');
  });

  it('escapes what a household wrote', () => {
    const name = '<img src=x onerror=alert(1)>';
    const html = render(<ShelfRow {...plumJam} item={{ ...plumJam.item, name }} />);

    expect(html).not.toContain('<img');
    expect(html).toContain('&lt;img');
  });
});

describe('the undo bar', () => {
  const action = (entryId: string, words: string) => ({
    entryId,
    itemId: 'plum-jam',
    words,
    when: 'just now',
    keep: null,
    keys,
    answers: 'row' as const,
  });

  it('shows the last action and folds the earlier ones away', () => {
    const html = render(
      <UndoBar
        actions={[action('e2', 'Took 1 half-pint of Plum jam'), action('e1', 'Gave away 2 pints of Beans')]}
        suspect={null}
      />,
    );

    expect(html.indexOf('Took 1 half-pint')).toBeLessThan(html.indexOf('<summary>1 more</summary>'));
    expect(html.indexOf('Gave away 2 pints')).toBeGreaterThan(html.indexOf('<details'));
  });

  it('is empty when nothing can be undone, so that it takes no room', () => {
    expect(render(<UndoBar actions={[]} suspect={null} />)).toBe(
      '<div id="undo" class="undo-bar" aria-live="polite"></div>',
    );
  });
});
