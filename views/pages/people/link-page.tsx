import type { linkForm } from '../../../shared/schemas/account.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { InputField, type StateOf } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';

export interface LinkPageProps {
  readonly frame: Frame;
  readonly title: string;
  readonly line: string;
  /** Where what stands behind `#` is sent. */
  readonly action: string;
  readonly form: StateOf<typeof linkForm>;
}

/** Where a link with a secret leads: its script sends the secret on by itself; without script it is pasted. */
export const LinkPage = ({ frame, title, line, action, form }: LinkPageProps) => (
  <Page frame={frame} title={title} section="none" about={line}>
    <h1 class="page-title">{title}</h1>
    <p class="page-line">{line}</p>
    <PostForm action={action} form={form} label={title} class="form link-form">
      <InputField
        form={form}
        name="link"
        label="Link"
        secret
        hint="Your link opens by itself. If it does not, paste it here."
        width="full"
      />
      <p>
        <Button weight="main">Open the link</Button>
      </p>
    </PostForm>
    <script src={frame.assets.link} defer />
  </Page>
);
