import type { Generated } from 'kysely';
import type { DateText, Flag, Instant } from './columns.ts';

/** What the household is told, and by which way. */
export interface NoticesTables {
  notice: NoticeTable;
  notice_lead: NoticeLeadTable;
  mail_wish: MailWishTable;
  mail_confirmation: MailConfirmationTable;
  letter: LetterTable;
}

export interface NoticeTable {
  household_id: string;
  id: string;
  kind: string;
  subject: string;
  reason: string;
  /** What a notice of several things speaks of; an empty list for one thing. */
  about_json: Generated<string>;
  due_on: DateText | null;
  state: Generated<'open' | 'snoozed' | 'done' | 'gone'>;
  snoozed_until: DateText | null;
  first_seen_at: Instant;
  changed_at: Instant;
  sent_at: Instant | null;
  /** Counts a household's notices as they were opened; null for those from before there was a count. */
  seq: Generated<number | null>;
}

export interface NoticeLeadTable {
  household_id: string;
  kind: string;
  days: number | null;
}

export interface MailWishTable {
  household_id: string;
  address: string;
  weekly: Generated<Flag>;
  weekday: Generated<number>;
  urgent: Generated<Flag>;
  /** When somebody at the address said that letters may come; null: none is sent there. */
  confirmed_at: Instant | null;
}

/** An address that waits to be confirmed; `token_hash` of the link once its letter is sent. */
export interface MailConfirmationTable {
  household_id: string;
  id: string;
  address: string;
  token_hash: string | null;
  expires_at: Instant | null;
}

export interface LetterTable {
  household_id: string;
  id: string;
  about: string;
  recipient: string;
  subject: string;
  plain: string;
  html: string;
  notices_json: string;
  written_at: Instant;
  sent_at: Instant | null;
  /** Counts a household's letters as they were written; null for those from before there was a count. */
  seq: Generated<number | null>;
}
