import { type FieldProblems, InputField } from '../../parts/form.tsx';
import { pageNames } from '../../words/page-names.ts';

interface FirstOwnerProps {
  /** The form the fields belong to. */
  readonly form: string;
  /** The name as typed; a passphrase is never sent back. */
  readonly owner: string;
  readonly problems: FieldProblems;
}

/** Who may become the owner while a household is set up. */
export const FirstOwner = ({ form, owner, problems }: FirstOwnerProps) => (
  <fieldset class="part">
    <legend>{pageNames.people}</legend>
    <p class="hint">
      Leave both blank if only this computer is used. With a passphrase nobody sees the household without
      signing in, and you can invite others.
    </p>
    <div class="form-row">
      <InputField
        form={form}
        name="owner"
        label="Your name"
        value={owner}
        autocomplete="username"
        problem={problems.owner}
      />
      <InputField
        form={form}
        name="passphrase"
        label="Passphrase"
        hint="At least 12 characters; a few words in a row are good."
        type="password"
        value=""
        autocomplete="new-password"
        problem={problems.passphrase}
      />
    </div>
  </fieldset>
);
