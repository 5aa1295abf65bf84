import { addDays, asDate, type CalendarDate } from '../../shared/week.ts';
import type { NoticeItem, NoticeLot, NoticePicture, NoticeWindow } from '../../src/notices/notice-picture.ts';

export const jars = { one: 'jar', many: 'jars' };
export const asOf = asDate('2026-11-25');

/** A pantry that needs nothing; a test adds what it is about. */
export const quietPantry = (facts: Partial<NoticePicture> = {}): NoticePicture => ({
  asOf,
  weekStartsOn: 'monday',
  lots: [],
  items: [],
  windows: [],
  sessions: [],
  fresh: [],
  onHand: {},
  gaveWay: [],
  canners: [],
  altitudeFt: 1240,
  ...facts,
});

export const peaches = (facts: Partial<NoticeLot> = {}): NoticeLot => {
  const madeOn: CalendarDate = facts.madeOn ?? asDate('2025-12-12');
  return {
    lotId: 'peaches-25-12',
    itemName: 'Peach halves',
    left: 3,
    unit: jars,
    came: 'put up',
    madeOn,
    readyFrom: madeOn,
    bestQualityUntil: addDays(madeOn, 365),
    place: null,
    setAside: null,
    ...facts,
  };
};

export const plumJam = (facts: Partial<NoticeItem> = {}): NoticeItem => ({
  itemId: 'plum-jam',
  itemName: 'Plum jam',
  unit: jars,
  isOnRecord: true,
  onShelf: 5,
  usePerWeek: 1,
  runsOutIn: null,
  nextSupplyWeek: null,
  nextSupplyBy: 'made',
  suspectedHabit: null,
  ...facts,
});

export const plums = (facts: Partial<NoticeWindow> = {}): NoticeWindow => ({
  sourceId: 'hill-orchard-plums',
  sourceName: 'the hill orchard',
  cropName: 'plums',
  year: 2026,
  beginsOn: asDate('2026-08-10'),
  endsOn: asDate('2026-09-07'),
  shiftDays: 0,
  wantedFor: ['plum jam'],
  ...facts,
});
