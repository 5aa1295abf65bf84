/** What a member of a household may do, from most to least. */
export const roles = ['owner', 'cook', 'helper', 'reader'] as const;
export type Role = (typeof roles)[number];

/**
 * What a route asks of whoever sends the request: `read` pages, `record` what happened on the shelf, `plan` the year and
 * the kitchen, `own` the household and who belongs to it; `anyone` stands outside of every household, and `person` is
 * for whoever may begin a household here. What a connected thing asks for needs its access token, and no role opens it.
 */
export type Need = 'anyone' | 'person' | 'read' | 'record' | 'plan' | 'own' | ThingNeed;
export type ThingNeed = 'thing reads' | 'thing takes';

export const isThingNeed = (need: Need | null | undefined): need is ThingNeed =>
  need === 'thing reads' || need === 'thing takes';

const allowed: Readonly<Record<Role, readonly Need[]>> = {
  owner: ['read', 'record', 'plan', 'own'],
  cook: ['read', 'record', 'plan'],
  helper: ['read', 'record'],
  reader: ['read'],
};

export const may = (role: Role, need: Need): boolean => allowed[role].includes(need);

export const roleWords: Readonly<Record<Role, string>> = {
  owner: 'owner: everything, and who belongs here',
  cook: 'cook: plans, changes the kitchen and records',
  helper: 'helper: records what is taken, put up and counted',
  reader: 'reader: looks only',
};
