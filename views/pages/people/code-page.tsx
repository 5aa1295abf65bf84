import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FieldProblems, type FormKeys, InputField, PostForm } from '../../parts/form.tsx';

export interface CodePageProps {
  readonly frame: Frame;
  readonly keys: FormKeys;
  readonly problems: FieldProblems;
}

/** The passphrase was right; the second factor is asked for. */
export const CodePage = ({ frame, keys, problems }: CodePageProps) => (
  <Page frame={frame} title="Your code" section="none" about="The second factor.">
    <h1 class="page-title">Your code</h1>
    <p class="page-line">The six digits your authenticator shows now, or one of your recovery codes.</p>
    <PostForm action="/sign-in/code" keys={keys} problems={problems} label="Your code">
      <InputField
        form="code"
        name="code"
        label="Code"
        value=""
        autocomplete="one-time-code"
        problem={problems.code}
      />
      <p>
        <Button weight="main">Sign in</Button>
      </p>
    </PostForm>
    <p class="more">
      <a href="/sign-in">Begin again</a>
    </p>
  </Page>
);
