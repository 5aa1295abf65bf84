import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormState, InputField } from '../../parts/fields.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';

export interface SignInPageProps {
  readonly frame: Frame;
  readonly title: string;
  readonly line: string;
  /** Where the form is sent. */
  readonly action: string;
  readonly button: string;
  /** Whether a new passphrase is chosen here. */
  readonly isNew: boolean;
  /** The secret of the link that led here. */
  readonly link: string | null;
  /** A second proof that is asked for beside the passphrase. */
  readonly second: { readonly label: string; readonly hint: string } | null;
  readonly form: FormState<Readonly<Record<'name' | 'passphrase' | 'code', string>>>;
  /** The name cannot be chosen here; only its passphrase is asked for. */
  readonly nameIsKnown: boolean;
  /** Join as who is signed in. */
  readonly joinAs: { readonly name: string; readonly keys: FormKeys } | null;
  /** Set where the demo may be looked at. */
  readonly demoKeys: FormKeys | null;
}

/** A name and a passphrase: to come in, to join, or to close a household. */
export const SignInPage = (props: SignInPageProps) => (
  <Page frame={props.frame} title={props.title} section="none" about={props.line}>
    <h1 class="page-title">{props.title}</h1>
    <p class="page-line">{props.line}</p>
    {props.joinAs === null ? null : (
      <PostForm action={props.action} keys={props.joinAs.keys} label="Join">
        <input type="hidden" name="as" value="signed-in" />
        <LinkSecret link={props.link} />
        <Button weight="main">{`Join as ${props.joinAs.name}`}</Button>
      </PostForm>
    )}
    <PostForm action={props.action} form={props.form} label={props.title}>
      <LinkSecret link={props.link} />
      {props.nameIsKnown ? (
        // For whatever keeps passphrases: whose this one is.
        <input type="hidden" name="name" value={props.form.values.name} autocomplete="username" />
      ) : (
        <InputField form={props.form} name="name" label="Name" autocomplete="username" />
      )}
      <InputField
        form={props.form}
        name="passphrase"
        label="Passphrase"
        type="password"
        autocomplete={props.isNew ? 'new-password' : 'current-password'}
        {...(props.isNew ? { hint: 'At least 12 characters; a few words in a row are good.' } : {})}
      />
      {props.second === null ? null : (
        <InputField
          form={props.form}
          name="code"
          label={props.second.label}
          hint={props.second.hint}
          autocomplete="one-time-code"
        />
      )}
      <p>
        <Button weight="main">{props.button}</Button>
      </p>
    </PostForm>
    {props.demoKeys === null ? null : (
      <PostForm action="/start/demo" keys={props.demoKeys} label="The demo">
        <p>
          <Button>Look around in the demo</Button>
        </p>
      </PostForm>
    )}
  </Page>
);

const LinkSecret = ({ link }: { link: string | null }) =>
  link === null ? null : <input type="hidden" name="link" value={link} />;
