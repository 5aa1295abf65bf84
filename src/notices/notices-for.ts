import { compare } from '../../shared/compare.ts';
import { plainReader, readOut } from './marks.ts';
import type { Notice, NoticeKind, NoticeSettings } from './notice.ts';
import type { NoticePicture } from './notice-picture.ts';
import { altitudeUnknown } from './rules/altitude-unknown.ts';
import { appetiteChanged } from './rules/appetite-changed.ts';
import { bestByNear } from './rules/best-by-near.ts';
import { buyForSession } from './rules/buy-for-session.ts';
import { clockWasWrong } from './rules/clock-was-wrong.ts';
import { gaugeCheck } from './rules/gauge-check.ts';
import { harvestCloses, harvestOpens } from './rules/harvest-window.ts';
import { keptTooLong } from './rules/kept-too-long.ts';
import { loadHeldBack } from './rules/load-held-back.ts';
import { lotSetAside } from './rules/lot-set-aside.ts';
import { mayBeCanned } from './rules/may-be-canned.ts';
import { notOnRecord } from './rules/not-on-record.ts';
import { runsOut } from './rules/runs-out.ts';
import { stageDue } from './rules/stage-due.ts';
import { targetNotMet } from './rules/target-not-met.ts';
import { upkeepDue } from './rules/upkeep-due.ts';

const ruleOf: Readonly<Record<NoticeKind, (picture: NoticePicture, leadDays: number) => Notice[]>> = {
  'best by near': bestByNear,
  'runs out': runsOut,
  'not on record': notOnRecord,
  'harvest opens': harvestOpens,
  'harvest closes': harvestCloses,
  'buy for a session': buyForSession,
  'stage due': stageDue,
  'may be canned': mayBeCanned,
  'load held back': loadHeldBack,
  'target not met': targetNotMet,
  'set aside': lotSetAside,
  'kept too long': keptTooLong,
  'gauge check': gaugeCheck,
  'upkeep due': upkeepDue,
  'altitude unknown': altitudeUnknown,
  'appetite changed': appetiteChanged,
  'clock was wrong': clockWasWrong,
};

/**
 * Everything that needs attention on the picture's date, one notice for each kind and subject.
 *
 * Order: what has no date first (it matters until mended), then by date, kind and subject; the order of the input changes
 * nothing. Kinds whose lead time is null are left out. What a person snoozed or did is not looked at here: see
 * `noticeChanges`.
 */
export function noticesFor(picture: NoticePicture, settings: NoticeSettings): readonly Notice[] {
  const { reader = plainReader } = picture;
  const kinds = Object.keys(ruleOf) as NoticeKind[];
  return kinds
    .flatMap((kind) => {
      const leadDays = settings.leadDays[kind];
      return leadDays === null ? [] : ruleOf[kind](picture, leadDays);
    })
    .map((notice) => ({ ...notice, reason: readOut(notice.reason, reader) }))
    .sort(
      (one, other) =>
        compare(one.dueOn ?? '', other.dueOn ?? '') ||
        compare(one.kind, other.kind) ||
        compare(one.subject, other.subject),
    );
}
