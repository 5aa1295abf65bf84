import { z } from 'zod';
import { bounds } from '../bounds.ts';
import { choiceField, optionalNumberField, textField, tickField } from './form-fields.ts';

const days = (label: string) =>
  optionalNumberField({ label, ...bounds.noticeDays, unit: 'days', example: '14' });

/** Days before its day from which a notice is given; empty gives none. What stays until mended is on or off. */
export const noticeLeadForm = z.object({
  bestByNear: days('Eat soon'),
  runsOut: days('Runs out'),
  harvestOpens: days('Harvest opens'),
  harvestCloses: days('Harvest closes'),
  buyForSession: days('To buy'),
  stageDue: days('Before the canner'),
  mayBeCanned: days('Ready for the canner'),
  gaugeCheck: days('Gauge check'),
  upkeepDue: days('Upkeep'),
  targetNotMet: tickField(),
  appetiteChanged: tickField(),
});
export type NoticeLeads = Readonly<z.output<typeof noticeLeadForm>>;

const weekdays = ['1', '2', '3', '4', '5', '6', '7'] as const;

/** Where letters go, and which. */
export const mailWishForm = z.object({
  address: textField('Mail address', 254).refine(
    (text) => /^[^\s@<>,;"]+@[^\s@<>,;"]+\.[^\s@<>,;"]+$/.test(text),
    {
      message: 'Mail address cannot be that. Write one address like name@example.org.',
    },
  ),
  weekly: tickField(),
  weekday: choiceField('day', weekdays),
  urgent: tickField(),
});
export type MailWishRequest = Readonly<z.output<typeof mailWishForm>>;
