import { describe, expect, test } from 'vitest';
import { addDays, asDate } from '../../shared/week.ts';
import {
  daysUnrecorded,
  type ItemRecords,
  isRecordedAsItHappened,
  recordingBegins,
} from '../../src/consumption/recording-start.ts';

const feb10 = asDate('2026-02-10');
const nothing: ItemRecords = { others: [], takings: [], countedOn: [], inBookFrom: [], saidSince: null };
const begins = (over: Partial<ItemRecords>) => recordingBegins({ ...nothing, ...over });
const at = (on: string, writtenOn = on) => ({ on: asDate(on), writtenOn: asDate(writtenOn) });

test('what is written down within a week was recorded as it happened', () => {
  const isRecorded = (days: number) => isRecordedAsItHappened({ on: feb10, writtenOn: addDays(feb10, days) });

  expect([0, 6, 7, 8].map(isRecorded)).toEqual([true, true, true, false]);
});

describe('recording of an item begins', () => {
  test('never while nothing is written down, or only what is long past', () => {
    expect(begins({})).toBeNull();
    expect(
      begins({ others: [at('2025-08-01', '2026-02-10')], takings: [at('2026-01-02', '2026-02-10')] }),
    ).toBeNull();
  });

  test('when the household says it does, whatever the book shows', () => {
    expect(begins({ saidSince: feb10, others: [at('2026-01-05')] })).toBe('2026-02-10');
  });

  test('on the day something came or went, the day after something was taken, whichever is first', () => {
    expect(begins({ others: [at('2026-02-20'), at('2026-02-12')] })).toBe('2026-02-12');
    expect(begins({ takings: [at('2026-02-20')] })).toBe('2026-02-21');
    expect(begins({ others: [at('2026-02-22')], takings: [at('2026-02-20')] })).toBe('2026-02-21');
  });

  // The example of its description.
  test('with the book itself once the shelf was counted', () => {
    const written = { inBookFrom: [feb10], takings: [at('2026-02-20')] };

    expect(begins(written)).toBe('2026-02-21');
    expect(begins({ ...written, countedOn: [asDate('2026-03-10')] })).toBe('2026-02-10');
    expect(begins({ ...written, countedOn: [feb10] })).toBe('2026-02-10');
    expect(begins({ ...written, countedOn: [asDate('2026-02-09')] })).toBe('2026-02-21');
    expect(begins({ ...written, countedOn: [asDate('2026-02-09'), asDate('2026-03-10')] })).toBe(
      '2026-02-10',
    );
  });
});

describe('days that nothing was recorded of', () => {
  const day = (text: string) => asDate(`2026-03-${text}`);
  const span = (from: string, until: string) => ({ from: day(from), until: day(until) });
  const gaps = (...recorded: readonly ReturnType<typeof span>[]) =>
    daysUnrecorded(recorded, day('05'), day('25'));

  test('are all of them where nothing is', () => {
    expect(gaps()).toEqual([span('05', '25')]);
  });

  test('stand before, between and after what was, in whatever order it is given', () => {
    expect(gaps(span('18', '20'), span('08', '10'))).toEqual([
      span('05', '08'),
      span('10', '18'),
      span('20', '25'),
    ]);
  });

  test('are none where spans touch, overlap or reach over the ends', () => {
    expect(gaps(span('01', '12'), span('12', '28'))).toEqual([]);
    expect(gaps(span('05', '15'), span('07', '10'), span('14', '25'))).toEqual([]);
    expect(gaps(span('05', '20'), span('07', '10'))).toEqual([span('20', '25')]);
  });

  test('end where they are asked to', () => {
    expect(gaps(span('27', '29'))).toEqual([span('05', '25')]);
    expect(gaps(span('01', '03'))).toEqual([span('05', '25')]);
    expect(daysUnrecorded([], day('05'), day('05'))).toEqual([]);
  });
});
