import { z } from 'zod';
import { letters } from '../bounds.ts';
import { choiceField, optionalDateField, optionalTextField, textField } from './form-fields.ts';

const longestPassphrase = 200;
const shortestPassphrase = 12;

/** A passphrase as it was typed, spaces at the ends included: nothing is cut off or changed. */
const passphraseField = (label: string) =>
  z
    .preprocess((raw) => {
      const last: unknown = Array.isArray(raw) ? raw.at(-1) : raw;
      return typeof last === 'string' ? last : '';
    }, z.string())
    .refine((text) => text !== '', `${label} is empty. Fill it in.`)
    .refine(
      (text) => text.length <= longestPassphrase,
      `${label} can have up to ${longestPassphrase} characters; you wrote more. Shorten it.`,
    );

const newPassphrase = (label: string) =>
  passphraseField(label).refine(
    (text) => text === '' || text.length >= shortestPassphrase,
    `A passphrase needs at least ${shortestPassphrase} characters; this one has fewer. A few words in a row are easy to keep.`,
  );

const passphraseOfNew = newPassphrase('Passphrase');
const name = textField('Name', 60);
const code = textField('Code', 60);

/** Somebody who is known. */
export const signInForm = z.object({ name, passphrase: passphraseField('Passphrase') });

/** What an authenticator shows, or a recovery code. */
export const codeForm = z.object({ code });

/** Somebody new. */
export const newPersonForm = z.object({ name, passphrase: passphraseOfNew });

/** The owner named while a household is set up; both left empty, it stays open to whoever sits at this machine. */
export const firstOwnerForm = z.object({ owner: textField('Your name', 60), passphrase: passphraseOfNew });

/** A passphrase by a link, for somebody who forgot the last one, with what is asked for beside the link. */
export const resetForm = z.object({
  passphrase: newPassphrase('New passphrase'),
  code: optionalTextField('Code', 60),
});

/** What stands behind `#` in a link; the whole link may be pasted too. */
export const linkForm = z.object({
  link: textField('Link', 400).transform((text) => text.split(/[#/]/).at(-1) ?? ''),
});

/** What takes a second factor away or its codes anew: the passphrase, and the factor itself. */
export const factorForm = z.object({ present: passphraseField('Present passphrase'), code });

export const passphraseForm = z.object({
  present: passphraseField('Present passphrase'),
  passphrase: newPassphrase('New passphrase'),
});

/** What weighs so much that the passphrase is asked for again. */
export const presentForm = z.object({ present: passphraseField('Present passphrase') });

/** Whether a second factor is asked of every member. */
export const factorRequirementForm = z.object({
  wanted: choiceField('rule for a second factor', ['yes', 'no']),
  present: passphraseField('Present passphrase'),
});

/** What deleting a household asks for; the passphrase only of somebody who is signed in. */
export const householdRemovalForm = z.object({
  name: optionalTextField('Name of the household', 200),
  present: z.preprocess((raw) => (typeof raw === 'string' ? raw : ''), z.string().max(longestPassphrase)),
});

/** `ended` stands in the form once for each sign-in that is chosen. */
export const endSignInsForm = z.object({
  present: passphraseField('Present passphrase'),
  ended: z.preprocess(
    (raw) => (Array.isArray(raw) ? raw : [raw]).filter((one): one is string => typeof one === 'string'),
    z
      .array(z.string().max(100))
      .min(1, 'Tick a sign-in to end.')
      .max(100, 'A hundred sign-ins at once is the most. Tick fewer.'),
  ),
});

/** Whether each take says who took it. */
export const whoTookForm = z.object({ wanted: choiceField('answer', ['yes', 'no']) });

export const invitationForm = z.object({ role: choiceField('role', ['owner', 'cook', 'helper', 'reader']) });

/** The name of somebody, as the operator types it on the command line. */
export const operatorName = textField('NAME', 60);
export const operatorAddress = optionalTextField('--address', 254);

/** A thing of the household's own that is to be let in. Its name stands behind the name of who took, so it is short. */
export const connectedThingForm = z.object({
  name: textField('Name', letters.thing),
  may: choiceField('answer', ['read', 'read and take']),
  endsOn: optionalDateField('Last day'),
});

/** The same where somebody is signed in: only they make it. */
export const ownConnectedThingForm = connectedThingForm.extend({
  present: passphraseField('Present passphrase'),
});
