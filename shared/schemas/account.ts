import { z } from 'zod';
import { choiceField, textField } from './form-fields.ts';

const longestPassphrase = 200;
const shortestPassphrase = 12;

const newPassphrase = textField('Passphrase', longestPassphrase).refine(
  (text) => text.length >= shortestPassphrase,
  `Passphrase must have at least ${shortestPassphrase} characters; it has fewer. A few words in a row are easy to keep.`,
);

const name = textField('Name', 60);

/** Somebody who is known. */
export const signInForm = z.object({ name, passphrase: textField('Passphrase', longestPassphrase) });

/** Somebody new. */
export const newPersonForm = z.object({ name, passphrase: newPassphrase });

export const passphraseForm = z.object({
  present: textField('Present passphrase', longestPassphrase),
  passphrase: newPassphrase,
});

export const invitationForm = z.object({ role: choiceField('Role', ['owner', 'cook', 'helper', 'reader']) });
