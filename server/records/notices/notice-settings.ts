import { found, type Outcome } from '../../../shared/problems.ts';
import type { MailWishRequest, NoticeLeads } from '../../../shared/schemas/notice-settings.ts';
import type { NoticeKind } from '../../../src/notices/notice.ts';
import { type Recording, record } from '../record.ts';
import { askNoMore, askToConfirm, letterJobsEnd } from './mail-confirmation.ts';

/** Kinds nobody keeps quiet: what is unsafe, unknown or wrong until it is mended. */
type NeverQuiet =
  | 'set aside'
  | 'kept too long'
  | 'altitude unknown'
  | 'load held back'
  | 'clock was wrong'
  | 'not on record';

/** Every other kind has its lead chosen by the household, in this field of the form. */
const fieldOf = {
  'best by near': 'bestByNear',
  'runs out': 'runsOut',
  'harvest opens': 'harvestOpens',
  'harvest closes': 'harvestCloses',
  'buy for a session': 'buyForSession',
  'stage due': 'stageDue',
  'may be canned': 'mayBeCanned',
  'gauge check': 'gaugeCheck',
  'upkeep due': 'upkeepDue',
  'target not met': 'targetNotMet',
  'appetite changed': 'appetiteChanged',
} as const satisfies Readonly<Record<Exclude<NoticeKind, NeverQuiet>, keyof NoticeLeads>>;

export type KindWithLead = keyof typeof fieldOf;
const kindsWithLead = Object.keys(fieldOf) as KindWithLead[];
export const leadFieldOf = <Kind extends KindWithLead>(kind: Kind): (typeof fieldOf)[Kind] => fieldOf[kind];

/** Says from when on notices of each kind are given. */
export const setNoticeLeads = (recording: Recording, leads: NoticeLeads): Promise<Outcome<true>> =>
  record(
    recording,
    'set notice leads',
    leads,
    async ({ trx, householdId }) => {
      for (const kind of kindsWithLead) {
        const said = leads[leadFieldOf(kind)];
        const days = typeof said === 'boolean' ? (said ? 0 : null) : said;
        await trx
          .insertInto('notice_lead')
          .values({ household_id: householdId, kind, days })
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
      if (!isAsked) await askNoMore(trx, householdId);
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
      await askNoMore(trx, householdId);
      await letterJobsEnd(trx, householdId, 'Not sent: letters were ended.', at);
      return found(true);
    },
    'no facts',
  );
