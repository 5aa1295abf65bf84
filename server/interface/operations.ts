import type { z } from 'zod';
import type { ThingNeed } from '../access/roles.ts';
import {
  eatFirstAnswer,
  itemAnswer,
  noticesAnswer,
  shelfAnswer,
  takeAnswer,
  takeSent,
  undoneAnswer,
  weekAnswer,
} from './shapes.ts';

/** What can be asked of the interface: the routes and their description are both made of this list. */
export interface Operation {
  readonly id: string;
  readonly method: 'GET' | 'POST';
  /** Under the interface’s address, `/items/{item}`. */
  readonly path: string;
  readonly summary: string;
  readonly needs: ThingNeed;
  /** What stands in the braces of the path. */
  readonly parameter?: { readonly name: string; readonly description: string };
  readonly sent?: z.ZodType;
  readonly answer: z.ZodType;
  /** 201 where something new is written down. */
  readonly status: 200 | 201;
  /** What it can be refused for besides the token and the limit. */
  readonly refusals: readonly Refusal[];
}
export type Refusal = 400 | 404 | 409 | 413 | 415 | 422;

const reads = { method: 'GET', needs: 'thing reads', status: 200 } as const;
const takes = { method: 'POST', needs: 'thing takes' } as const;

export const operations = {
  shelf: {
    ...reads,
    id: 'readShelf',
    path: '/shelf',
    summary: 'What stands on the shelf, and how long it lasts',
    answer: shelfAnswer,
    refusals: [],
  },
  item: {
    ...reads,
    id: 'readItem',
    path: '/items/{item}',
    summary: 'One item with its batches',
    parameter: { name: 'item', description: 'Id of the item.' },
    answer: itemAnswer,
    refusals: [404],
  },
  eatFirst: {
    ...reads,
    id: 'readEatFirst',
    path: '/eat-first',
    summary: 'What to eat first',
    answer: eatFirstAnswer,
    refusals: [],
  },
  week: {
    ...reads,
    id: 'readWeek',
    path: '/week',
    summary: 'This week: the work at the stove and the errands',
    answer: weekAnswer,
    refusals: [],
  },
  notices: {
    ...reads,
    id: 'readNotices',
    path: '/notices',
    summary: 'What needs attention',
    answer: noticesAnswer,
    refusals: [],
  },
  take: {
    ...takes,
    id: 'take',
    path: '/takes',
    summary: 'Take from the shelf',
    sent: takeSent,
    answer: takeAnswer,
    status: 201,
    refusals: [400, 409, 413, 415, 422],
  },
  undo: {
    ...takes,
    id: 'undoTake',
    path: '/takes/{take}/undo',
    summary: 'Take a take back',
    parameter: { name: 'take', description: 'What the take was answered with.' },
    answer: undoneAnswer,
    status: 200,
    refusals: [400, 404, 409, 413, 415],
  },
} as const satisfies Readonly<Record<string, Operation>>;
