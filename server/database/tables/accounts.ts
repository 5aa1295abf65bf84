import type { Generated } from 'kysely';
import type { Instant } from './columns.ts';

/** Who may look: people, their households, invitations and sign-ins. None of it belongs to a household’s own file. */
export interface AccountsTables {
  person: PersonTable;
  membership: MembershipTable;
  invitation: InvitationTable;
  sign_in: SignInTable;
  sign_in_failure: SignInFailureTable;
}

export interface PersonTable {
  id: string;
  name: string;
  passphrase_hash: string;
  created_at: Instant;
}

export interface MembershipTable {
  household_id: string;
  person_id: string;
  role: 'owner' | 'cook' | 'helper' | 'reader';
  since_at: Instant;
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
}

export interface SignInFailureTable {
  seq: Generated<number>;
  subject: string;
  failed_at: Instant;
}
