export interface SignatureVerdict {
  readonly fails: boolean;
  readonly words: string;
}

/**
 * What the answer of `npm audit signatures --json` means: an invalid signature fails; no answer, or one that cannot be
 * read, is said and does not.
 */
export const signatureVerdict = (answer: string): SignatureVerdict => {
  const said = parsed(answer);
  if (said !== null && Array.isArray(said.invalid)) {
    const invalid = said.invalid.map((one) => `${one.name}@${one.version}`);
    if (invalid.length > 0)
      return { fails: true, words: `Signatures: INVALID for ${invalid.join(', ')}. Do not install them.` };
    return { fails: false, words: 'Signatures: the registry answered, none is invalid.' };
  }
  return { fails: false, words: 'Signatures: not checked, because the registry or its keys did not answer.' };
};

const parsed = (
  answer: string,
): { readonly invalid?: readonly { readonly name: string; readonly version: string }[] } | null => {
  try {
    const value: unknown = JSON.parse(answer);
    return typeof value === 'object' ? value : null;
  } catch {
    return null;
  }
};
