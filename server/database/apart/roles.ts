/** What a transaction says whose rows it may see. */
export const householdSetting = 'shelfward.household';

/** Whom the server lets do what; roles are of the whole server, so they carry the program's name. */
export const roles = {
  /** Sees one household's rows, and those only. */
  household: 'shelfward_household',
  /** Sees which person and which secret leads to which household, and nothing of what a household has. */
  accounts: 'shelfward_accounts',
  /** Sees every household: the work of the night, and commands. */
  everybody: 'shelfward_worker',
} as const;
