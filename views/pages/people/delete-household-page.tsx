import type { householdRemovalForm } from '../../../shared/schemas/account.ts';
import type { Frame } from '../../layout/frame.ts';
import { Page } from '../../layout/page.tsx';
import { Button } from '../../parts/button.tsx';
import { InputField, type StateOf } from '../../parts/fields.tsx';
import { PostForm } from '../../parts/form.tsx';

export interface DeleteHouseholdPageProps {
  readonly frame: Frame;
  readonly name: string;
  readonly asksPassphrase: boolean;
  readonly form: StateOf<typeof householdRemovalForm>;
}

/** What deleting means, a file to take along, and the question. */
export const DeleteHouseholdPage = (props: DeleteHouseholdPageProps) => (
  <Page frame={props.frame} title="Delete the household" section="kitchen" about="Delete this household.">
    <h1 class="page-title">{`Delete ${props.name}`}</h1>
    <p class="page-line">
      {props.asksPassphrase
        ? 'Nobody sees it from then on. For seven days an owner can bring it back, whole; then it is gone. '
        : 'Nobody signs in to this household, so whoever opens it on this machine can delete it. Nobody sees it from then on. For seven days anybody on this machine can bring it back, whole, under “Your households”; then it is gone. '}
      Backups of the file still hold it until they are replaced themselves.
    </p>
    <p>
      <a href="/files/household.json">Take the household along as one file first</a>
      {'; another Shelfward, or this one, reads it.'}
    </p>
    <PostForm action="/households/removal" form={props.form} label="Delete the household">
      <InputField
        form={props.form}
        name="name"
        label="Name of the household"
        hint={`Write ${props.name} to say that you mean it.`}
        autocomplete="off"
      />
      {props.asksPassphrase ? (
        <InputField
          form={props.form}
          name="present"
          label="Present passphrase"
          type="password"
          autocomplete="current-password"
        />
      ) : null}
      <p>
        <Button weight="grave">Delete the household</Button>
      </p>
    </PostForm>
  </Page>
);
