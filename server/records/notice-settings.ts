import { found, type Outcome } from '../../shared/problems.ts';
import type { MailWishRequest, NoticeLeads } from '../../shared/schemas/notice-settings.ts';
import type { NoticeKind } from '../../src/notices/notice.ts';
import { letterSubject } from '../queries/letters.ts';
import { type Recording, record } from './record.ts';

/** Kinds whose lead a household chooses, by the field of the form. What is set aside is never kept quiet. */
const kindOf = {
  bestByNear: 'best by near',
  runsOut: 'runs out',
  harvestOpens: 'harvest opens',
  harvestCloses: 'harvest closes',
  buyForSession: 'buy for a session',
  gaugeCheck: 'gauge check',
  targetNotMet: 'target not met',
  appetiteChanged: 'appetite changed',
} as const satisfies Readonly<Record<keyof NoticeLeads, NoticeKind>>;

export const leadFields = Object.keys(kindOf) as (keyof typeof kindOf)[];
export const kindOfField = (field: keyof typeof kindOf): NoticeKind => kindOf[field];

/** Says from when on notices of each kind are given. */
export const setNoticeLeads = (recording: Recording, leads: NoticeLeads): Promise<Outcome<true>> =>
  record(
    recording,
    'set notice leads',
    leads,
    async ({ trx, householdId }) => {
      for (const field of leadFields) {
        const said = leads[field];
        const days = typeof said === 'boolean' ? (said ? 0 : null) : said;
        await trx
          .insertInto('notice_lead')
          .values({ household_id: householdId, kind: kindOf[field], days })
          .onConflict((same) => same.columns(['household_id', 'kind']).doUpdateSet({ days }))
          .execute();
      }
      return found(true);
    },
    'no facts',
  );

/** Says where letters go, and which. */
export const setMailWish = (recording: Recording, wish: MailWishRequest): Promise<Outcome<true>> =>
  record(
    recording,
    'set mail wish',
    wish,
    async ({ trx, householdId }) => {
      const said = {
        address: wish.address,
        weekly: wish.weekly ? 1 : 0,
        weekday: Number(wish.weekday),
        urgent: wish.urgent ? 1 : 0,
      };
      await trx
        .insertInto('mail_wish')
        .values({ household_id: householdId, ...said })
        .onConflict((same) => same.column('household_id').doUpdateSet(said))
        .execute();
      return found(true);
    },
    'no facts',
  );

/** No more letters; those that wait are not sent either. */
export const endMail = (recording: Recording): Promise<Outcome<true>> =>
  record(
    recording,
    'end mail',
    {},
    async ({ trx, householdId, at }) => {
      await trx.deleteFrom('mail_wish').where('household_id', '=', householdId).execute();
      await trx
        .updateTable('job')
        .set({ finished_at: at, failure: 'Not sent: letters were ended.' })
        .where('kind', '=', 'letter')
        .where('subject', 'like', letterSubject(householdId, '%'))
        .where('finished_at', 'is', null)
        .execute();
      return found(true);
    },
    'no facts',
  );
