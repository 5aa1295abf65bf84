import { z } from 'zod';
import { groupId } from '../ids.ts';
import { numberField } from './form-fields.ts';
import { idField } from './id-fields.ts';

/** What a household wants of things that stand in for each other. */
export const groupForm = z.object({
  groupId: idField('Group', groupId),
  total: numberField({ label: 'In all, a year', from: 0, to: 5000, example: '60' }),
  leastKinds: numberField({ label: 'At least', from: 1, to: 60, unit: 'kinds', whole: true, example: '4' }),
  largestShare: numberField({ label: 'No kind above', from: 1, to: 100, unit: '%', example: '40' }),
});
export type GroupRequest = Readonly<z.output<typeof groupForm>>;
