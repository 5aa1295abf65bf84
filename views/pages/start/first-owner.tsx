import { type FormFields, InputField } from '../../parts/fields.tsx';
import { pageNames } from '../../words/page-names.ts';

/** Who may become the owner while a household is set up. */
export const FirstOwner = ({
  form,
}: {
  form: FormFields<Readonly<Record<'owner' | 'passphrase', string>>>;
}) => (
  <fieldset class="part">
    <legend>{pageNames.people}</legend>
    <p class="hint">
      Leave both blank if only this computer is used. With a passphrase nobody sees the household without
      signing in, and you can invite others.
    </p>
    <div class="form-row">
      <InputField form={form} name="owner" label="Your name" autocomplete="username" />
      <InputField
        form={form}
        name="passphrase"
        label="Passphrase"
        hint="At least 12 characters; a few words in a row are good."
        type="password"
        autocomplete="new-password"
      />
    </div>
  </fieldset>
);
