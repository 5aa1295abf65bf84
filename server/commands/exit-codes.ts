/** Exit codes of every command. */
export const done = 0;
export const couldNot = 1;
export const notUnderstood = 2;
