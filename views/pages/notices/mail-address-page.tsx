import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { type FormKeys, PostForm } from '../../parts/form.tsx';

export interface MailAddressPageProps {
  readonly frame: Frame;
  readonly householdName: string;
  readonly address: string;
  readonly link: string;
  readonly keys: FormKeys;
}

/** Behind the link of a letter that asks whether letters may come. */
export const MailAddressPage = ({ frame, householdName, address, link, keys }: MailAddressPageProps) => (
  <Page frame={frame} title="Letters to this address" section="none" about="Whether letters may come here.">
    <h1 class="page-title">Letters to this address</h1>
    <p class="page-line">
      {`${householdName} would send its letters to ${address}: one a week, and what does not wait. Close this page if you do not want them; then none comes.`}
    </p>
    <PostForm action="/mail-address/confirmation" keys={keys} label="Letters to this address">
      <input type="hidden" name="link" value={link} />
      <p>
        <Button weight="main">Yes, letters may come here</Button>
      </p>
    </PostForm>
  </Page>
);
