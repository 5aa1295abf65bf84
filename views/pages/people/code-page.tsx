import type { codeForm } from '../../../shared/schemas/account.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { InputField, type StateOf } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';

export interface CodePageProps {
  readonly frame: Frame;
  readonly form: StateOf<typeof codeForm>;
}

/** The passphrase was right; the second factor is asked for. */
export const CodePage = ({ frame, form }: CodePageProps) => (
  <Page frame={frame} title="Your code" section="none" about="The second factor.">
    <h1 class="page-title">Your code</h1>
    <p class="page-line">The six digits your authenticator shows now, or one of your recovery codes.</p>
    <PostForm action="/sign-in/code" form={form} label="Your code">
      <InputField form={form} name="code" label="Code" autocomplete="one-time-code" />
      <p>
        <Button weight="main">Sign in</Button>
      </p>
    </PostForm>
    <p class="more">
      <a href="/sign-in">Begin again</a>
    </p>
  </Page>
);
