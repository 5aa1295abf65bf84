import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import {
  CheckField,
  type FieldProblems,
  type FormKeys,
  InputField,
  noProblems,
  PostForm,
} from '../../parts/form.tsx';
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
  readonly signIns: readonly SignInLine[];
  readonly factor: FactorProps;
  /** Whether the shelf may stay on this device. */
  readonly isOwnDevice: boolean;
  readonly problems: {
    readonly form: 'passphrase' | 'sign-ins' | 'factor' | 'codes';
    readonly messages: FieldProblems;
  } | null;
}

/** The own way in: passphrase, second factor, where one is signed in. */
export const OwnAccountPage = (props: OwnAccountPageProps) => {
  const { frame, name, keys, signIns, factor, isOwnDevice, problems } = props;
  const problemsOf = (form: NonNullable<OwnAccountPageProps['problems']>['form']): FieldProblems =>
    problems?.form === form ? problems.messages : noProblems;
  return (
    <Page frame={frame} title="How you sign in" section="kitchen" about={`How ${name} signs in.`}>
      <h1 class="page-title">How you sign in</h1>
      <p class="page-line">{name}</p>
      <SignIns signIns={signIns} keys={keys()} problems={problemsOf('sign-ins')} />
      <Passphrase keys={keys()} problems={problemsOf('passphrase')} />
      <SecondFactor
        factor={factor}
        keys={keys}
        problems={problemsOf('factor')}
        codesProblems={problemsOf('codes')}
      />
      <OwnDevice isOwn={isOwnDevice} keys={keys()} />
      <Part title="Sign out" id="sign-out">
        <SignOutForm keys={keys()} />
      </Part>
    </Page>
  );
};

interface FormProps {
  readonly keys: FormKeys;
  readonly problems: FieldProblems;
}

const Present = ({ form, problems }: { form: string; problems: FieldProblems }) => (
  <InputField
    form={form}
    name="present"
    label="Present passphrase"
    type="password"
    value=""
    autocomplete="current-password"
    problem={problems.present}
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

const SignIns = ({ signIns, keys, problems }: FormProps & { signIns: readonly SignInLine[] }) => (
  <Part
    title="Where you are signed in"
    id="sign-ins"
    line="A sign-in ends after two weeks without a page, and after sixty days in any case."
  >
    <PostForm action="/people/self/sign-ins" keys={keys} problems={problems} label="End sign-ins">
      {signIns.map(({ id, device, isThis, began, seen }, at) => (
        <CheckField
          key={id}
          form={`sign-in-${at + 1}`}
          name="ended"
          value={id}
          checked={false}
          label={isThis ? `${device} (this one)` : device}
          hint={`last used ${seen}, since ${began}`}
        />
      ))}
      {problems.ended === undefined ? null : <p class="problem">{problems.ended}</p>}
      <Present form="sign-ins" problems={problems} />
      <p>
        <Button weight="grave">End those ticked</Button>
      </p>
    </PostForm>
  </Part>
);

const Passphrase = ({ keys, problems }: FormProps) => (
  <Part title="Passphrase" id="passphrase" line="Another passphrase ends every sign-in, on this device too.">
    <PostForm action="/people/self/passphrase" keys={keys} problems={problems} label="Another passphrase">
      <Present form="passphrase" problems={problems} />
      <InputField
        form="passphrase"
        name="passphrase"
        label="New passphrase"
        type="password"
        value=""
        autocomplete="new-password"
        hint="At least 12 characters; a few words in a row are good."
        problem={problems.passphrase}
      />
      <p>
        <Button weight="main">Change the passphrase</Button>
      </p>
    </PostForm>
  </Part>
);

interface SecondFactorProps {
  readonly factor: FactorProps;
  readonly keys: () => FormKeys;
  readonly problems: FieldProblems;
  /** Of the form that makes new recovery codes. */
  readonly codesProblems: FieldProblems;
}

/** What only somebody does who has both, the passphrase and the factor. */
const FactorChange = ({
  form,
  action,
  words,
  keys,
  problems,
}: FormProps & { form: 'codes' | 'factor'; action: string; words: string }) => (
  <details class="fold" open={Object.keys(problems).length > 0}>
    <summary>{words}</summary>
    <PostForm action={action} keys={keys} problems={problems} label={words}>
      <Present form={form} problems={problems} />
      <InputField
        form={form}
        name="code"
        label="Code"
        hint="What the authenticator shows now, or a recovery code."
        value=""
        autocomplete="one-time-code"
        problem={problems.code}
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

const SecondFactor = ({ factor, keys, problems, codesProblems }: SecondFactorProps) => (
  <Part title="Second factor" id="factor" line={factorLine[factor.state]}>
    {factor.state === 'to-confirm' ? (
      <Confirm seed={factor.seed} picture={factor.picture} keys={keys()} problems={problems} />
    ) : factor.state === 'off' ? (
      <PostForm
        action="/people/self/second-factor"
        keys={keys()}
        problems={problems}
        label="Begin a second factor"
      >
        <Present form="factor" problems={problems} />
        <p>
          <Button weight="main">Begin</Button>
        </p>
      </PostForm>
    ) : (
      <>
        <p>{`${factor.codesLeft} recovery codes are left.`}</p>
        <p class="hint">Both of these ask for your passphrase and a code.</p>
        <FactorChange
          form="codes"
          action="/people/self/second-factor/recovery-codes"
          words="Make new recovery codes"
          keys={keys()}
          problems={codesProblems}
        />
        <FactorChange
          form="factor"
          action="/people/self/second-factor/removal"
          words="Ask for no code any more"
          keys={keys()}
          problems={problems}
        />
      </>
    )}
  </Part>
);

const Confirm = ({ seed, picture, keys, problems }: FormProps & { seed: string; picture: QrCodeProps }) => (
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
    <PostForm
      action="/people/self/second-factor/code"
      keys={keys}
      problems={problems}
      label="Confirm the second factor"
    >
      <InputField
        form="factor"
        name="code"
        label="Six digits"
        inputMode="numeric"
        value=""
        width="short"
        autocomplete="one-time-code"
        problem={problems.code}
      />
      <p>
        <Button weight="main">Ask for a code from now on</Button>
      </p>
    </PostForm>
  </>
);
