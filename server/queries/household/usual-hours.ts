/** The time in the kitchen of a household that has said nothing of it: one Saturday a week. */
export const usualHours = {
  sessionsPerWeek: 1,
  hoursPerSession: 5,
  setUpMinutes: 45,
  stoveBurners: 4,
  sessionWeekday: 6,
};
