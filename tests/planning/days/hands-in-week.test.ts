import { describe, expect, test } from 'vitest';
import { handsIn, kitchenRoom, workHeld } from '../../../src/planning/days/hands-in-week.ts';

describe('hands in a week', () => {
  test('are those of the week, and one pair where nobody was named', () => {
    expect(handsIn({ handsByWeek: [1, 2, 3] }, 1)).toBe(2);
    expect(handsIn({}, 1)).toBe(1);
    expect(() => handsIn({ handsByWeek: [1, 2] }, 2)).toThrow(/^handsByWeek: /);
  });

  // Two pairs of hands set up once, for half an hour, and then each works.
  test.each([
    [300, 30, 1, 300],
    [300, 30, 2, 30 + 2 * 270],
    [31, 30, 2, 32],
    [30, 30, 2, 30],
    [20, 30, 2, 20],
    [0, 30, 2, 0],
  ])(
    'a session of %i minutes, %i of them to set up, with %i pairs holds %i',
    (session, setUp, hands, work) => {
      expect(workHeld(session, setUp, hands)).toBe(work);
    },
  );

  test('the room of a week is that of all its sessions', () => {
    const time = {
      maxSessionsByWeek: [1, 3, 0],
      hoursPerSessionByWeek: [5, 2, 5],
      setUpMinutes: 30,
    };
    expect([0, 1, 2].map((week) => kitchenRoom(time, week))).toEqual([300, 360, 0]);
    expect(kitchenRoom({ ...time, handsByWeek: [1, 2, 1] }, 1)).toBe(3 * (30 + 2 * 90));
    expect(() => kitchenRoom(time, 3)).toThrow(/^maxSessionsByWeek: /);
    expect(() => kitchenRoom({ ...time, hoursPerSessionByWeek: [5] }, 1)).toThrow(/^hoursPerSessionByWeek: /);
  });
});
