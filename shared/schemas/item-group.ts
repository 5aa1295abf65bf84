import { z } from 'zod';
import { bounds } from '../bounds.ts';
import { groupId } from '../ids.ts';
import { numberField } from './form-fields.ts';
import { idField } from './id-fields.ts';

/** What a household wants of things that stand in for each other. */
export const groupForm = z.object({
  groupId: idField('Group', groupId),
  total: numberField({ label: 'In all, a year', ...bounds.yearlyUnits, example: '60' }),
  leastKinds: numberField({ label: 'At least', ...bounds.leastKinds, unit: 'kinds', example: '4' }),
  largestShare: numberField({
    label: 'No kind above',
    ...bounds.largestSharePercent,
    unit: '%',
    example: '40',
  }),
});
export type GroupRequest = Readonly<z.output<typeof groupForm>>;
