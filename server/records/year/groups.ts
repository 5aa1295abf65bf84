import { found, type Outcome, refused } from '../../../shared/problems.ts';
import type { GroupRequest } from '../../../shared/schemas/item-group.ts';
import { groupWishProblem } from '../../../src/consumption/group-wish.ts';
import { pageNames } from '../../../views/words/page-names.ts';
import { itemGroupsOf } from '../../queries/year/targets.ts';
import { type Recording, record, refuse } from '../record.ts';

/** Sets what a group wants in a year; wishes that contradict each other are refused. */
export const setGroupTarget = (recording: Recording, request: GroupRequest): Promise<Outcome<GroupRequest>> =>
  record(recording, 'set group', request, async ({ trx, householdId }) => {
    const group = (await itemGroupsOf(trx, householdId)).find(({ id }) => id === request.groupId);
    if (!group)
      return refuse('group-unknown', 'groupId', `Choose a group of those under ${pageNames.targets}.`);
    const largestShare = request.largestShare / 100;
    const problem = groupWishProblem(
      { name: group.name, leastKinds: request.leastKinds, largestShare },
      group.members.length,
    );
    if (problem !== null) return refused(problem);
    await trx
      .updateTable('item_group')
      .set({
        total_units: request.total,
        least_kinds: request.leastKinds,
        largest_share: largestShare,
      })
      .where('household_id', '=', householdId)
      .where('id', '=', group.id)
      .execute();
    return found(request);
  });
