import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button, ButtonLink } from '../../parts/button.tsx';
import { type FormState, fieldsWith, InputField, RadioField, SelectField } from '../../parts/fields.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import { pageNames } from '../../words/page-names.ts';
import { SignOutForm } from './sign-out-form.tsx';

export interface MemberLine {
  readonly id: string;
  readonly name: string;
  readonly role: string;
  /** The role now and those it may become, where the reader may change it. */
  readonly roles: {
    readonly value: string;
    readonly choices: readonly { value: string; words: string }[];
  } | null;
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
  /** Whether a second factor is asked of members; `keys` where the reader may say so. */
  readonly factor: {
    readonly words: string;
    readonly isAsked: boolean;
    readonly form: FormState<Readonly<Record<'present', string>>> | null;
  } | null;
  /** Whether each take says who took it; null while there are no two members. `keys` where the reader may say so. */
  readonly whoTook: { readonly isSaid: boolean; readonly keys: FormKeys | null } | null;
  /** What is connected, in a sentence; for owners, and for whoever sits at the machine of an open household. */
  readonly things: string | null;
  /** A link that was just made; it is shown this once. */
  readonly link: string | null;
  readonly self: { readonly name: string; readonly keys: FormKeys } | null;
}

/** Who belongs to the household, and the way in and out. */
export const PeoplePage = (props: PeoplePageProps) => (
  <Page frame={props.frame} title={pageNames.people} section="kitchen" about={props.line}>
    <h1 class="page-title">{pageNames.people}</h1>
    <p class="page-line">{props.line}</p>
    {props.isOpen ? (
      <p>
        <ButtonLink href="/people/owner" weight="main">
          Set a passphrase
        </ButtonLink>
      </p>
    ) : null}
    {props.members.length === 0 ? null : <Members members={props.members} />}
    {props.invite === null ? null : <Invite invite={props.invite} link={props.link} />}
    {props.whoTook === null ? null : <WhoTook {...props.whoTook} />}
    {props.factor === null ? null : <Factor factor={props.factor} />}
    {props.things === null ? null : <Things words={props.things} />}
    {props.self === null ? (
      <>
        <p class="more">
          <a href="/sign-in">Sign in to another household</a>
        </p>
        {props.isOpen ? (
          <>
            <p class="more">
              <a href="/households">Your households</a>
            </p>
            <p class="more">
              <a href="/households/removal">Delete the household</a>
            </p>
          </>
        ) : null}
      </>
    ) : (
      <Self self={props.self} />
    )}
  </Page>
);

const Members = ({ members }: { members: readonly MemberLine[] }) => (
  <Part title="Members">
    <ul>
      {members.map(({ id, name, role, roles, keys }, at) => (
        <li key={id}>
          <p>
            <strong>{name}</strong>
            {`, ${role}`}
          </p>
          {keys === null || roles === null ? null : (
            <PostForm action={`/people/${id}/role`} keys={keys} class="inline-form" label={`Role of ${name}`}>
              <SelectField
                form={fieldsWith(`member-${at + 1}`, { role: roles.value })}
                name="role"
                label={`Role of ${name}`}
                choices={roles.choices}
              />
              <Button weight="quiet" label={`Give ${name} that role`}>
                Give this role
              </Button>
            </PostForm>
          )}
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
      <RadioField
        form={fieldsWith('invite', { role: 'helper' })}
        name="role"
        label="As"
        choices={invite.roles}
      />
      <p>
        <Button weight="main">Make a link</Button>
      </p>
    </PostForm>
    <p class="more">
      <a href="/people/events">What happened to accounts</a>
    </p>
    <p class="more">
      <a href="/households/removal">Delete the household</a>
    </p>
  </Part>
);

const Factor = ({ factor }: { factor: NonNullable<PeoplePageProps['factor']> }) => (
  <Part title="Second factor" id="second-factor" line={factor.words}>
    {factor.form === null ? null : (
      <PostForm action="/people/second-factor" form={factor.form} label="Second factor of members">
        <input type="hidden" name="wanted" value={factor.isAsked ? 'no' : 'yes'} />
        {factor.isAsked ? null : (
          <p class="hint">
            You need one yourself first. A member without one is led to set it up before anything else opens;
            calendar programs go on.
          </p>
        )}
        <InputField
          form={factor.form}
          name="present"
          label="Present passphrase"
          type="password"
          autocomplete="current-password"
        />
        <p>
          <Button weight="main">
            {factor.isAsked ? 'Leave it to each member' : 'Ask it of every member'}
          </Button>
        </p>
      </PostForm>
    )}
  </Part>
);

const WhoTook = ({ isSaid, keys }: NonNullable<PeoplePageProps['whoTook']>) => (
  <Part
    title="Who took a jar"
    id="who-took"
    line={
      isSaid
        ? 'Each take says who took it: whoever is signed in, or another member, one tap further.'
        : 'Nothing says who took a jar. If you want to know, each take can.'
    }
  >
    {keys === null ? null : (
      <PostForm action="/people/who-took" keys={keys} label="Who took a jar">
        <input type="hidden" name="wanted" value={isSaid ? 'no' : 'yes'} />
        <p>
          <Button>{isSaid ? 'Stop saying who took a jar' : 'Say who took a jar'}</Button>
        </p>
      </PostForm>
    )}
  </Part>
);

const Self = ({ self }: { self: NonNullable<PeoplePageProps['self']> }) => (
  <Part title={self.name} id="self">
    <p class="more">
      <a href="/households">Your households</a>
    </p>
    <p class="more">
      <a href="/people/self">Your passphrase, second factor and sign-ins</a>
    </p>
    <SignOutForm keys={self.keys} />
  </Part>
);

const Things = ({ words }: { words: string }) => (
  <Part title="Connected things" id="things" line={words}>
    <p class="more">
      <a href="/connected-things">See and connect things</a>
    </p>
  </Part>
);
