import { HtmlValidate } from 'html-validate';

// The rules of the HTML standard as html-validate knows them, offline.
const validator = new HtmlValidate({
  extends: ['html-validate:recommended'],
  rules: {
    // Taste, not validity: the renderer writes `<!doctype html>` and closes void elements, both allowed by the standard.
    'doctype-style': 'off',
    'void-style': 'off',
    // A picture with links in it is named by its title; the standard allows it on any element that can have a name.
    'aria-label-misuse': ['error', { allowAnyNamable: true }],
  },
});

/** What of a page does not follow the HTML standard. */
export async function htmlProblems(html: string): Promise<readonly string[]> {
  const { results } = await validator.validateString(html);
  return results.flatMap(({ messages }) =>
    messages.map(({ ruleId, message, selector }) => `${ruleId}: ${message} ${selector}`),
  );
}
