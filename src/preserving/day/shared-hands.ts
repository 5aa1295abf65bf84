import type { DayTask } from './day-kitchen.ts';

/** What one person does without a break: jars are filled and put into the canner by the same hands. */
interface Piece {
  readonly tasks: readonly DayTask[];
  readonly from: number;
  readonly until: number;
}

/**
 * The work of a day shared among the people there. No step needs anybody in particular, so that in the order of the day each goes to
 * whoever is free and has done the fewest minutes so far, then to whoever did the step before it of the same batch, then to the
 * first who was named. Nobody does two things at a time, and the same day is always shared alike.
 *
 * It keeps when everything is done: where so many lanes were enough, any free person will do (tasks are intervals of time).
 */
export function sharedEvenly(tasks: readonly DayTask[], people: number): readonly DayTask[] {
  const minutes = Array.from({ length: people }, () => 0);
  const freeFrom = Array.from({ length: people }, () => 0);
  const lastOf = new Map<string, number>();
  const personOf = new Map<DayTask, number>();
  for (const piece of piecesOf(tasks)) {
    const pot = potOf(piece.tasks[0]);
    const free = minutes.flatMap((done, person) =>
      (freeFrom[person] ?? 0) <= piece.from ? [{ person, done }] : [],
    );
    const chosen = free.toSorted(
      (one, other) =>
        one.done - other.done ||
        Number(lastOf.get(pot) === other.person) - Number(lastOf.get(pot) === one.person) ||
        one.person - other.person,
    )[0];
    if (chosen === undefined) return tasks;
    for (const task of piece.tasks) personOf.set(task, chosen.person);
    minutes[chosen.person] = chosen.done + piece.until - piece.from;
    freeFrom[chosen.person] = piece.until;
    lastOf.set(pot, chosen.person);
  }
  return tasks.map((task) => {
    const person = personOf.get(task);
    return person === undefined ? task : { ...task, person };
  });
}

const potOf = (task: DayTask | undefined): string => `${task?.batch} ${task?.pot}`;

/** In the order of the day; those that begin together by batch, pot and load, as the day has them. */
function piecesOf(tasks: readonly DayTask[]): readonly Piece[] {
  const byHand = tasks.filter(({ person }) => person !== null);
  return byHand
    .filter((task) => task.kind !== 'load' || !byHand.some((other) => isFilling(other, task)))
    .map((task) => {
      const loading = task.kind === 'fill' ? byHand.find((other) => isFilling(task, other)) : undefined;
      return {
        tasks: loading === undefined ? [task] : [task, loading],
        from: task.fromMinute,
        until: loading?.toMinute ?? task.toMinute,
      };
    })
    .toSorted((one, other) => one.from - other.from);
}

/** Whether a task fills the jars that another puts into the canner. */
const isFilling = (filling: DayTask, loading: DayTask): boolean =>
  filling.kind === 'fill' &&
  loading.kind === 'load' &&
  filling.batch === loading.batch &&
  filling.pot === loading.pot &&
  filling.load === loading.load;
