import { renderToString } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { ThisWeekPage, type ThisWeekPageProps } from '../../../views/pages/week/this-week-page.tsx';
import { YearPage, type YearPageProps } from '../../../views/pages/year/year-page.tsx';
import { PlanStatus } from '../../../views/parts/plan-status.tsx';
import { wordsOf } from '../../builders/visitor.ts';
import { aFrame, anAxis, someKeys } from '../page-props.ts';

const noPlan = { standing: { state: 'none' }, quality: null, keys: someKeys, back: '/' } as const;

const anEmptyWeek: ThisWeekPageProps = {
  frame: aFrame,
  week: 'Week of Aug 17',
  summary: 'There is no plan yet.',
  days: [],
  ruledOut: [],
  beforeAndAfter: { from: '/', heldBack: [], days: [] },
  hasStages: false,
  trips: [],
  passed: [],
  done: [],
  errandTotal: null,
  settled: [],
  eatFirst: [],
  notices: [],
  moreNotices: 0,
  ahead: [],
  plan: noPlan,
};

const anEmptyYear: YearPageProps = {
  frame: aFrame,
  summary: 'Nothing is put up in this household yet.',
  axis: anAxis,
  boards: [],
  bought: [],
  gaveWay: [],
  leftOver: [],
  stages: { from: '/year', heldBack: [], days: [] },
  countsOn: [],
  worth: null,
  plan: noPlan,
};

describe('a week in which nothing is known yet', () => {
  test('says of each part why it is empty, and keeps the headings in order', () => {
    const page = renderToString(
      <ThisWeekPage {...anEmptyWeek} frame={{ ...anEmptyWeek.frame, openNotices: 0 }} />,
    );
    const words = wordsOf(page);

    for (const said of [
      'Nothing is planned at the stove this week.',
      'Nothing to fetch this week.',
      'Nothing on the shelf is near its date.',
      'Nothing needs attention.',
      'There is no plan to look ahead in yet.',
    ])
      expect(words).toContain(said);
    expect([...page.matchAll(/<h([1-6])/g)].map((found) => found[1])).toEqual(['1', '2', '2', '2', '2', '2']);
  });
});

describe('a week whose notices stand elsewhere on the page', () => {
  test('says that nothing else needs attention', () => {
    const page = renderToString(
      <ThisWeekPage {...anEmptyWeek} frame={{ ...anEmptyWeek.frame, openNotices: 3 }} />,
    );

    expect(wordsOf(page)).toContain('Nothing else needs attention.');
  });
});

describe('a year in which nothing is kept yet', () => {
  test('says so and leads to the targets', () => {
    const page = renderToString(<YearPage {...anEmptyYear} />);

    expect(wordsOf(page)).toContain(
      'No board hangs here yet: there is nothing to keep for the year. Choose something from the recipe book',
    );
    expect(page).not.toContain('What doesn’t fit');
  });
});

describe('how the plan stands', () => {
  test('a plan out of date offers a new one before anything else; a current one quietly', () => {
    const standing = (state: 'current' | 'outdated') =>
      renderToString(<PlanStatus {...noPlan} standing={{ state, madeOn: 'Aug 12' }} />);

    expect(standing('outdated')).toContain('button-main');
    expect(standing('current')).toContain('button-quiet');
  });

  test('only while a plan is being made does the page ask again', () => {
    const running = renderToString(
      <PlanStatus {...noPlan} standing={{ state: 'running', progress: '3 s so far.', nearness: null }} />,
    );

    expect(running).toContain('hx-trigger="every 1s"');
    expect(running).not.toContain('action="/plan"');
    expect(running).toContain('action="/plan/stop"');
    expect(renderToString(<PlanStatus {...noPlan} />)).not.toContain('hx-trigger');
  });
});
