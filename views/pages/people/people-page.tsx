import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button, ButtonLink } from '../../parts/button.tsx';
import { type FieldProblems, type FormKeys, InputField, PostForm, RadioField } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';

export interface MemberLine {
  readonly id: string;
  readonly name: string;
  readonly role: string;
  /** Set where the reader may remove this member. */
  readonly keys: FormKeys | null;
}

export interface PeoplePageProps {
  readonly frame: Frame;
  readonly line: string;
  /** Nobody owns the household yet; an owner may be named. */
  readonly isOpen: boolean;
  readonly members: readonly MemberLine[];
  /** For owners only. */
  readonly invite: {
    readonly keys: FormKeys;
    readonly roles: readonly { value: string; words: string }[];
  } | null;
  /** A link that was just made; it is shown this once. */
  readonly link: string | null;
  readonly self: { readonly name: string; readonly keys: FormKeys } | null;
  readonly problems: FieldProblems;
}

/** Who belongs to the household, and the way in and out. */
export const PeoplePage = (props: PeoplePageProps) => (
  <Page frame={props.frame} title="Who may look" section="kitchen" about={props.line}>
    <h1 class="page-title">Who may look</h1>
    <p class="page-line">{props.line}</p>
    {props.isOpen ? (
      <p>
        <ButtonLink href="/people/owner" weight="main">
          Set a passphrase
        </ButtonLink>
      </p>
    ) : (
      <Members members={props.members} />
    )}
    {props.invite === null ? null : <Invite invite={props.invite} link={props.link} />}
    {props.self === null ? (
      <p class="more">
        <a href="/sign-in">Sign in to another household</a>
      </p>
    ) : (
      <Self self={props.self} problems={props.problems} />
    )}
  </Page>
);

const Members = ({ members }: { members: readonly MemberLine[] }) => (
  <Part title="Members">
    <ul>
      {members.map(({ id, name, role, keys }) => (
        <li key={id}>
          <p>
            <strong>{name}</strong>
            {`, ${role}`}
          </p>
          {keys === null ? null : (
            <PostForm action={`/people/${id}/removal`} keys={keys} label={`Remove ${name}`}>
              <Button weight="quiet" label={`Remove ${name}`}>
                Remove
              </Button>
            </PostForm>
          )}
        </li>
      ))}
    </ul>
  </Part>
);

const Invite = ({
  invite,
  link,
}: {
  invite: NonNullable<PeoplePageProps['invite']>;
  link: string | null;
}) => (
  <Part
    title="Invite somebody"
    id="invite"
    line="A link lets one person in, once, within seven days. Send it by a way you trust."
  >
    {link === null ? null : (
      <p class="banner banner-done">
        {'Copy this link now; it is not shown again: '}
        <code>{link}</code>
      </p>
    )}
    <PostForm action="/people/invitations" keys={invite.keys} label="Invite somebody">
      <RadioField form="invite" name="role" label="As" value="helper" choices={invite.roles} />
      <p>
        <Button weight="main">Make a link</Button>
      </p>
    </PostForm>
  </Part>
);

const Self = ({
  self,
  problems,
}: {
  self: NonNullable<PeoplePageProps['self']>;
  problems: FieldProblems;
}) => (
  <Part title={self.name} id="self" line="Another passphrase ends every sign-in, on this device too.">
    <PostForm
      action="/people/self/passphrase"
      keys={self.keys}
      problems={problems}
      label="Another passphrase"
    >
      <InputField
        form="self"
        name="present"
        label="Present passphrase"
        type="password"
        value=""
        autocomplete="current-password"
        problem={problems.present}
      />
      <InputField
        form="self"
        name="passphrase"
        label="New passphrase"
        type="password"
        value=""
        autocomplete="new-password"
        problem={problems.passphrase}
      />
      <p>
        <Button>Change the passphrase</Button>
      </p>
    </PostForm>
    <PostForm action="/sign-out" keys={self.keys} label="Sign out">
      <p>
        <Button name="where" value="here">
          Sign out
        </Button>{' '}
        <Button weight="quiet" name="where" value="everywhere">
          Sign out everywhere
        </Button>
      </p>
    </PostForm>
  </Part>
);
