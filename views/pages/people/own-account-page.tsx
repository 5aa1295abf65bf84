import type { factorForm, passphraseForm, presentForm } from '../../../shared/schemas/account.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import {
  CheckField,
  type FormFields,
  type FormState,
  fieldsWith,
  hasProblems,
  InputField,
  type StateOf,
} from '../../parts/fields.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';
import { Part } from '../../parts/part.tsx';
import type { QrCodeProps } from '../labels/label-sheet.tsx';
import { SignOutForm } from './sign-out-form.tsx';

export interface SignInLine {
  readonly id: string;
  readonly device: string;
  /** The sign-in this page is read with. */
  readonly isThis: boolean;
  readonly began: string;
  readonly seen: string;
}

export type FactorProps =
  | { readonly state: 'off' }
  | { readonly state: 'to-confirm'; readonly seed: string; readonly picture: QrCodeProps }
  | { readonly state: 'on'; readonly codesLeft: number };

export interface OwnAccountPageProps {
  readonly frame: Frame;
  readonly name: string;
  readonly keys: () => FormKeys;
  readonly forms: OwnForms;
  readonly signIns: readonly SignInLine[];
  readonly factor: FactorProps;
  /** Whether the shelf may stay on this device. */
  readonly isOwnDevice: boolean;
}

/** Its forms; `ended` is told of those that are ticked. */
export interface OwnForms {
  readonly signIns: StateOf<typeof presentForm, never, 'ended'>;
  readonly passphrase: StateOf<typeof passphraseForm>;
  readonly factor: StateOf<typeof factorForm>;
  readonly codes: StateOf<typeof factorForm>;
}

/** The own way in: passphrase, second factor, where one is signed in. */
export const OwnAccountPage = (props: OwnAccountPageProps) => {
  const { frame, name, keys, forms, signIns, factor, isOwnDevice } = props;
  return (
    <Page frame={frame} title="How you sign in" section="kitchen" about={`How ${name} signs in.`}>
      <h1 class="page-title">How you sign in</h1>
      <p class="page-line">{name}</p>
      <SignIns signIns={signIns} form={forms.signIns} />
      <Passphrase form={forms.passphrase} />
      <SecondFactor factor={factor} forms={forms} />
      <OwnDevice isOwn={isOwnDevice} keys={keys()} />
      <Part title="Sign out" id="sign-out">
        <SignOutForm keys={keys()} />
      </Part>
    </Page>
  );
};

const Present = ({ form }: { form: FormFields<Readonly<Record<'present', string>>> }) => (
  <InputField
    form={form}
    name="present"
    label="Present passphrase"
    type="password"
    autocomplete="current-password"
  />
);

const OwnDevice = ({ isOwn, keys }: { isOwn: boolean; keys: FormKeys }) => (
  <Part
    title="Without a signal"
    id="device"
    line={
      isOwn
        ? 'This device keeps the shelf as you last saw it, so that you can take jars without a signal. Anybody who unlocks the device can read it there until you sign out.'
        : 'This device keeps nothing of the shelf, so jars cannot be taken on it without a signal. If the device is your own and locks itself, let it keep the shelf.'
    }
  >
    <PostForm action="/people/self/device" keys={keys} label="Keep the shelf on this device">
      <input type="hidden" name="own" value={isOwn ? 'no' : 'yes'} />
      <p>
        <Button>{isOwn ? 'Keep nothing on this device' : 'Keep the shelf on this device'}</Button>
      </p>
    </PostForm>
  </Part>
);

const SignIns = ({ signIns, form }: { signIns: readonly SignInLine[]; form: OwnForms['signIns'] }) => (
  <Part
    title="Where you are signed in"
    id="sign-ins"
    line="A sign-in ends after two weeks without a page, and after sixty days in any case."
  >
    <PostForm action="/people/self/sign-ins" form={form} label="End sign-ins">
      {signIns.map(({ id, device, isThis, began, seen }, at) => (
        <CheckField
          key={id}
          form={fieldsWith(`sign-in-${at + 1}`, { ended: false })}
          name="ended"
          value={id}
          label={isThis ? `${device} (this one)` : device}
          hint={`last used ${seen}, since ${began}`}
        />
      ))}
      {form.problems.ended === undefined ? null : <p class="problem">{form.problems.ended}</p>}
      <Present form={form} />
      <p>
        <Button weight="grave">End those ticked</Button>
      </p>
    </PostForm>
  </Part>
);

const Passphrase = ({ form }: { form: OwnForms['passphrase'] }) => (
  <Part title="Passphrase" id="passphrase" line="Another passphrase ends every sign-in, on this device too.">
    <PostForm action="/people/self/passphrase" form={form} label="Another passphrase">
      <Present form={form} />
      <InputField
        form={form}
        name="passphrase"
        label="New passphrase"
        type="password"
        autocomplete="new-password"
        hint="At least 12 characters; a few words in a row are good."
      />
      <p>
        <Button weight="main">Change the passphrase</Button>
      </p>
    </PostForm>
  </Part>
);

/** What only somebody does who has both, the passphrase and the factor. */
const FactorChange = ({
  form,
  action,
  words,
}: {
  form: StateOf<typeof factorForm>;
  action: string;
  words: string;
}) => (
  <details class="fold" open={hasProblems(form)}>
    <summary>{words}</summary>
    <PostForm action={action} form={form} label={words}>
      <Present form={form} />
      <InputField
        form={form}
        name="code"
        label="Code"
        hint="What the authenticator shows now, or a recovery code."
        autocomplete="one-time-code"
      />
      <p>
        <Button weight="main">{words}</Button>
      </p>
    </PostForm>
  </details>
);

const factorLine = {
  off: 'An authenticator on your phone can show a code that is asked for beside the passphrase.',
  'to-confirm':
    'Read the picture with an authenticator, or type its letters there; then type the six digits it shows.',
  on: 'A code is asked for whenever you sign in.',
} as const;

const SecondFactor = ({ factor, forms }: Pick<OwnAccountPageProps, 'factor' | 'forms'>) => (
  <Part title="Second factor" id="factor" line={factorLine[factor.state]}>
    {factor.state === 'to-confirm' ? (
      <Confirm seed={factor.seed} picture={factor.picture} form={forms.factor} />
    ) : factor.state === 'off' ? (
      <PostForm action="/people/self/second-factor" form={forms.factor} label="Begin a second factor">
        <Present form={forms.factor} />
        <p>
          <Button weight="main">Begin</Button>
        </p>
      </PostForm>
    ) : (
      <>
        <p>{`${factor.codesLeft} recovery codes are left.`}</p>
        <p class="hint">Both of these ask for your passphrase and a code.</p>
        <FactorChange
          form={forms.codes}
          action="/people/self/second-factor/recovery-codes"
          words="Make new recovery codes"
        />
        <FactorChange
          form={forms.factor}
          action="/people/self/second-factor/removal"
          words="Ask for no code any more"
        />
      </>
    )}
  </Part>
);

const Confirm = ({
  seed,
  picture,
  form,
}: {
  seed: string;
  picture: QrCodeProps;
  form: FormState<Readonly<Record<'code', string>>>;
}) => (
  <>
    <svg
      class="factor-picture"
      viewBox={`0 0 ${picture.size} ${picture.size}`}
      role="img"
      aria-label="The seed as a picture; its letters stand below"
      shape-rendering="crispEdges"
    >
      <rect width={picture.size} height={picture.size} class="factor-paper" />
      <path d={picture.path} class="factor-ink" />
    </svg>
    <p>
      <code>{seed}</code>
    </p>
    <PostForm action="/people/self/second-factor/code" form={form} label="Confirm the second factor">
      <InputField
        form={form}
        name="code"
        label="Six digits"
        inputMode="numeric"
        width="short"
        autocomplete="one-time-code"
      />
      <p>
        <Button weight="main">Ask for a code from now on</Button>
      </p>
    </PostForm>
  </>
);
