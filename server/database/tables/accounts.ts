import type { Generated } from 'kysely';
import type { Instant } from './columns.ts';

/** Sharing: people, their households, invitations and sign-ins. None of it belongs to a household’s own file. */
export interface AccountsTables {
  person: PersonTable;
  membership: MembershipTable;
  household_setup: HouseholdSetupTable;
  household_deletion: HouseholdDeletionTable;
  begin_permission: BeginPermissionTable;
  factor_requirement: FactorRequirementTable;
  invitation: InvitationTable;
  sign_in: SignInTable;
  half_sign_in: HalfSignInTable;
  sign_in_failure: SignInFailureTable;
  second_factor: SecondFactorTable;
  recovery_code: RecoveryCodeTable;
  passphrase_reset: PassphraseResetTable;
  security_event: SecurityEventTable;
  connected_thing: ConnectedThingTable;
  household_token: HouseholdTokenTable;
}

export interface PersonTable {
  id: string;
  name: string;
  /** What the name is told apart by from those of others. */
  name_key: string;
  passphrase_hash: string;
  created_at: Instant;
  /** Until when a second factor may wait where the operator asks it of everybody; null before the first page. */
  factor_due_at: Generated<Instant | null>;
}

/** Which household a secret is of; what it opens stands with the household. */
export interface HouseholdTokenTable {
  token_hash: string;
  household_id: string;
  opens: 'invitation' | 'calendar' | 'interface' | 'mail address';
}

export interface MembershipTable {
  household_id: string;
  person_id: string;
  role: 'owner' | 'cook' | 'helper' | 'reader';
  since_at: Instant;
}

/** `asker` is a person's id, or empty for whoever sits at this machine without an account. */
export interface HouseholdSetupTable {
  asker: string;
  key: string;
  household_id: string;
  made_at: Instant;
}

/** A household that nobody sees any more and that can come back. */
export interface HouseholdDeletionTable {
  household_id: string;
  deleted_at: Instant;
  by_name: string;
}

/** Whom the operator lets begin a household. */
export interface BeginPermissionTable {
  person_id: string;
  allowed_at: Instant;
}

/** A household that asks a second factor of its members. */
export interface FactorRequirementTable {
  household_id: string;
  required_at: Instant;
  by_name: string;
}

export interface InvitationTable {
  household_id: string;
  token_hash: string;
  role: 'owner' | 'cook' | 'helper' | 'reader';
  made_at: Instant;
  expires_at: Instant;
}

export interface SignInTable {
  token_hash: string;
  person_id: string;
  began_at: Instant;
  seen_at: Instant;
  device: Generated<string>;
}

/** The passphrase was right; the second factor is waited for. */
export interface HalfSignInTable {
  token_hash: string;
  person_id: string;
  expires_at: Instant;
}

export interface SignInFailureTable {
  seq: Generated<number>;
  subject: string;
  failed_at: Instant;
}

export interface SecondFactorTable {
  person_id: string;
  seed: string;
  begun_at: Instant;
  confirmed_at: Instant | null;
  /** Steps of 30 seconds since 1970; a step up to this one is used up. */
  last_step: Generated<number>;
}

export interface RecoveryCodeTable {
  person_id: string;
  code_hash: string;
}

export interface PassphraseResetTable {
  person_id: string;
  token_hash: string;
  expires_at: Instant;
  /** What is given beside the link where the second factor is lost; null while that is asked for itself. */
  second_code_hash: string | null;
}

export interface SecurityEventTable {
  seq: Generated<number>;
  at: Instant;
  kind: string;
  person_id: string | null;
  household_id: string | null;
  address: string;
  device: string;
}

/** What reads the interface with an access token; that it opens is told by its hash alone. */
export interface ConnectedThingTable {
  household_id: string;
  id: string;
  name: string;
  may: 'read' | 'read and take';
  token_hash: string;
  made_by: string | null;
  made_at: Instant;
  ends_on: string | null;
  used_at: Instant | null;
}
