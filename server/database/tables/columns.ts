/** 0 or 1. */
export type Flag = number;
/** UTC milliseconds since 1970. */
export type Instant = number;
/** 2026-08-17 */
export type DateText = string;
/** 2026-W34 */
export type WeekText = string;
