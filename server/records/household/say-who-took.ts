import { found, type Outcome } from '../../../shared/problems.ts';
import { membersOf } from '../../access/members.ts';
import { type Recording, record, refuse } from '../record.ts';

/** Whether each take says who took it; with one member there is nobody to tell apart. */
export const sayWhoTook = (
  recording: Recording,
  wanted: boolean,
): Promise<Outcome<{ readonly wanted: boolean }>> =>
  record(
    recording,
    'say who took',
    { wanted },
    async ({ trx, householdId }) => {
      const members = wanted ? await membersOf(trx, householdId) : [];
      if (wanted && members.length < 2)
        return refuse(
          'one-member',
          'wanted',
          `To say who took a jar takes two members, and this household has ${members.length === 0 ? 'none' : 'one'}. Invite somebody first.`,
        );
      await trx
        .updateTable('household')
        .set({ says_who_took: wanted ? 1 : 0 })
        .where('id', '=', householdId)
        .execute();
      return found({ wanted });
    },
    'no facts',
  );
