import type { CalendarDate } from '../../shared/week.ts';

/**
 * Every kind, with the days before its event from which a household is told that has said nothing else; kinds without an
 * event use 0. Quiet by default: six weeks to eat what nears its date, eight to make up for what runs out, two before a
 * harvest, ten days to buy for a session (one weekly shopping trip before it), the day before a stage. Judged, no source.
 */
const usualLeadDays = {
  'best by near': 42,
  'runs out': 56,
  'not on record': 0,
  'harvest opens': 14,
  'harvest closes': 10,
  'buy for a session': 10,
  'stage due': 1,
  'may be canned': 3,
  'load held back': 0,
  'target not met': 0,
  'set aside': 0,
  'kept too long': 0,
  'gauge check': 30,
  'upkeep due': 30,
  'altitude unknown': 0,
  'appetite changed': 0,
  'clock was wrong': 0,
} as const satisfies Readonly<Record<string, number>>;

export type NoticeKind = keyof typeof usualLeadDays;
export const noticeKinds = Object.keys(usualLeadDays) as readonly NoticeKind[];

/** Something to know: why, with what figures, and by when. What can be done about it is worded by its kind and subject. */
export interface Notice {
  readonly kind: NoticeKind;
  /** What it is about, stable from day to day: `lot:…`, `item:…`, `source:…:2027`, `week:2026-W34`. One notice per kind and subject. */
  readonly subject: string;
  /** Whole sentences for the person. Dates are written out; the text changes with the facts, at most from week to week. */
  readonly reason: string;
  /** Day by which it matters; null when it matters until mended. */
  readonly dueOn: CalendarDate | null;
  /** What one notice of several is about, by name or id; missing for a notice of one thing. One that is done returns with a new one. */
  readonly about?: readonly string[];
}

/** Days before the event from which a notice of each kind is given; null switches the kind off. */
export type NoticeLeadDays = Readonly<Record<NoticeKind, number | null>>;

export interface NoticeSettings {
  readonly leadDays: NoticeLeadDays;
}

export const defaultNoticeSettings: NoticeSettings = { leadDays: usualLeadDays };

/** From how many days before its date a jar is to be eaten soon, as the household has it; the usual days where it wants no notice of it. */
export const eatSoonDaysOf = ({ leadDays }: NoticeSettings): number =>
  leadDays['best by near'] ?? usualLeadDays['best by near'];
