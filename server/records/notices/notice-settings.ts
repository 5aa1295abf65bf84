import { found, type Outcome } from '../../../shared/problems.ts';
import type { MailWishRequest, NoticeLeads } from '../../../shared/schemas/notice-settings.ts';
import type { NoticeKind } from '../../../src/notices/notice.ts';
import { type Recording, record } from '../record.ts';
import { askToConfirm, letterJobsEnd } from './mail-confirmation.ts';

/** Kinds whose lead a household chooses, by the field of the form. What is set aside is never kept quiet. */
const kindOf = {
  bestByNear: 'best by near',
  runsOut: 'runs out',
  harvestOpens: 'harvest opens',
  harvestCloses: 'harvest closes',
  buyForSession: 'buy for a session',
  stageDue: 'stage due',
  mayBeCanned: 'may be canned',
  gaugeCheck: 'gauge check',
  upkeepDue: 'upkeep due',
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

/** Says where letters go, and which. Another address is asked first; until it says yes, letters go where they went. */
export const setMailWish = (recording: Recording, wish: MailWishRequest): Promise<Outcome<true>> =>
  record(
    recording,
    'set mail wish',
    wish,
    async ({ trx, householdId }) => {
      const said = {
        weekly: wish.weekly ? 1 : 0,
        weekday: Number(wish.weekday),
        urgent: wish.urgent ? 1 : 0,
      };
      const before = await trx
        .selectFrom('mail_wish')
        .select(['address', 'confirmed_at'])
        .where('household_id', '=', householdId)
        .executeTakeFirst();
      const isAsked = before?.confirmed_at == null || before.address !== wish.address;
      const address = before?.confirmed_at == null ? wish.address : before.address;
      await trx
        .insertInto('mail_wish')
        .values({ household_id: householdId, address, ...said, confirmed_at: null })
        .onConflict((same) => same.column('household_id').doUpdateSet({ address, ...said }))
        .execute();
      const waiting = await trx
        .selectFrom('mail_confirmation')
        .select('address')
        .where('household_id', '=', householdId)
        .executeTakeFirst();
      if (!isAsked)
        await trx.deleteFrom('mail_confirmation').where('household_id', '=', householdId).execute();
      else if (waiting?.address !== wish.address) await askToConfirm(trx, householdId, wish.address);
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
      await trx.deleteFrom('mail_confirmation').where('household_id', '=', householdId).execute();
      await letterJobsEnd(trx, householdId, 'Not sent: letters were ended.', at);
      return found(true);
    },
    'no facts',
  );
