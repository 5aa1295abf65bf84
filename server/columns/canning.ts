import { z } from 'zod';
import { type Bound, bounds, letters } from '../../shared/bounds.ts';
import { recipeId } from '../../shared/ids.ts';
import { failedSealChoices } from '../../shared/schemas/canning-session.ts';
import { calendarDate } from '../../shared/week.ts';
import { noticeKinds } from '../../src/notices/notice.ts';
import { expectThat, isSaid, table, together } from './carried-table.ts';
import {
  day,
  dayAfter,
  instant,
  json,
  key,
  line,
  minuteOfClock,
  oneOf,
  orNone,
  sequence,
  slug,
  week,
  withDefault,
  within,
} from './column-kinds.ts';

// Of what was decided, canned and found.

const ofDay = { session_on: 'canning_session' } as const;
const ofLot = { lot_id: 'lot' } as const;
const ofRecipe = { recipe_id: 'recipe' } as const;
/** Twelve sizes of jars of one lot each. */
const jarsOfResult: Bound = { from: 0, to: 12 * bounds.units.to };
const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/);
const settingOfDay = z.strictObject({
  by: z.enum(['start', 'end']),
  time: clock,
  people: within(bounds.peopleAtWork).schema,
  who: z.array(line(letters.whoIsThere).schema).max(bounds.peopleAtWork.to).exactOptional(),
  burners: within(bounds.stoveBurners).schema,
  rows: z.record(z.string().max(300), z.string().max(300)),
});
const workOfDay = z.array(z.strictObject({ recipeId, batches: within(bounds.batches).schema })).max(200);
const basisOfSheet = z
  .array(
    z.looseObject({
      altitudeFt: within(bounds.altitudeFt).schema,
      canner: z.string().max(300),
      gauge: z.string().max(40).nullable(),
      gaugeCheckedOn: calendarDate.nullable(),
      rowKeys: z.array(z.string().max(300)).max(200),
    }),
  )
  .max(200);

/** A machine that has been on for a thousand years at most. */
const steadyMs = within({ from: 0, to: 1000 * 366 * 24 * 60 * 60_000, whole: true });

export const canningColumns = {
  kept: table(
    'What you decided about batches',
    10_000,
    ['recipe_id', 'week'],
    {
      recipe_id: slug,
      week,
      decision: oneOf(['pinned', 'ruled-out', 'done']),
      batches: orNone(within(bounds.batchesMade)),
      decided_at: instant,
    },
    { pointsTo: ofRecipe },
  ),
  notice: table('Notices', 20_000, ['id'], {
    id: key,
    kind: oneOf(noticeKinds),
    subject: key,
    reason: line(10_000),
    about_json: withDefault(json('what it speaks of', z.array(z.string().max(200)).max(2000))),
    due_on: orNone(dayAfter),
    state: withDefault(oneOf(['open', 'snoozed', 'done', 'gone'])),
    snoozed_until: orNone(dayAfter),
    first_seen_at: instant,
    changed_at: instant,
    seq: orNone(within({ from: 0, to: 1_000_000_000, whole: true })),
    sent_at: orNone(instant),
  }),
  canning_session: table('Canning days', 5000, ['session_on'], {
    session_on: day,
    setting_json: json('how the day is laid out', settingOfDay),
    work_json: json('what is made on the day', workOfDay),
    opened_at: instant,
  }),
  session_tick: table(
    'Ticks of canning days',
    60_000,
    ['session_on', 'load_key', 'step'],
    { session_on: day, load_key: key, step: key, ticked_at: instant },
    { pointsTo: ofDay },
  ),
  load_clock_event: table(
    'Clocks of loads',
    20_000,
    ['seq'],
    {
      seq: sequence,
      session_on: day,
      load_key: key,
      kind: oneOf(['started', 'interrupted']),
      why: orNone(oneOf(['boil-stopped', 'pressure-dropped', 'power-cut'])),
      at: instant,
      steady_run: orNone(line(80)),
      steady_ms: orNone(steadyMs),
    },
    {
      pointsTo: ofDay,
      rules: [
        together('steady_run', 'steady_ms'),
        expectThat(
          (row) => (row.kind === 'interrupted') === isSaid(row.why),
          'why a load was interrupted exactly where it was',
        ),
      ],
    },
  ),
  printed_sheet: table(
    'Printed sheets',
    5000,
    ['number'],
    {
      number: sequence,
      session_on: day,
      basis_json: json('what the sheet rests on', basisOfSheet),
      printed_at: instant,
    },
    { pointsTo: ofDay },
  ),
  batch_result: table(
    'What came out of batches',
    10_000,
    ['id'],
    {
      id: key,
      recipe_id: slug,
      made_on: day,
      batches: within(bounds.batches),
      jars: within(jarsOfResult),
      minutes_taken: orNone(within(bounds.minutesOfBatch)),
      processed_at: instant,
      note: withDefault(line(letters.batchNote, 0)),
      recorded_at: instant,
      session_on: orNone(day),
    },
    { pointsTo: ofRecipe },
  ),
  batch_result_lot: table(
    'Batches by what they came from',
    20_000,
    ['lot_id'],
    { result_id: key, lot_id: slug },
    { pointsTo: { result_id: 'batch_result', ...ofLot } },
  ),
  seal_check: table(
    'Checks of seals',
    20_000,
    ['lot_id'],
    {
      lot_id: slug,
      checked_at: instant,
      failed: within(bounds.sealsFailed),
      choice: orNone(oneOf(failedSealChoices)),
    },
    {
      pointsTo: ofLot,
      rules: [
        expectThat(
          (row) => Number(row.failed) > 0 === isSaid(row.choice),
          'what was done with jars that did not seal, exactly where there are any',
        ),
      ],
    },
  ),
  stage_event: table(
    'Stages begun',
    20_000,
    ['seq'],
    {
      seq: sequence,
      batch_id: slug,
      recipe_id: slug,
      batches: within(bounds.batchesMade),
      kind: oneOf(['begun', 'taken back', 'thrown away']),
      position: orNone(within(bounds.stagePosition)),
      way: orNone(line(letters.way)),
      begun_at: orNone(minuteOfClock),
      recorded_by: orNone(line(letters.person)),
      recorded_at: instant,
    },
    {
      pointsTo: ofRecipe,
      rules: [
        expectThat(
          (row) => (row.kind === 'thrown away') !== isSaid(row.position),
          'a stage, unless the batch was thrown away',
        ),
        expectThat(
          (row) => (row.kind === 'begun') === isSaid(row.begun_at),
          'a time exactly where a stage was begun',
        ),
      ],
    },
  ),
  lot_standing_event: table(
    'Batches set aside and released',
    20_000,
    ['seq'],
    {
      seq: sequence,
      lot_id: slug,
      kind: oneOf(['set-aside', 'released']),
      reason: withDefault(line(1000, 0)),
      at: instant,
    },
    { pointsTo: ofLot },
  ),
} as const;
