import { dateInZone } from '../../shared/week.ts';
import { formatDay } from '../../views/words/format.ts';
import type { Reading } from '../../views/words/reading.ts';
import type { Trouble } from '../queries/notices/troubles.ts';

const workWords = {
  backup: 'The backup',
  notices: 'The notices',
  replan: 'The plan made in the night',
  letter: 'The last letter',
} as const;

/** What the program could not do by itself, as sentences for the household. */
export const presentTroubles = (
  troubles: readonly Trouble[],
  { timeZone, reading }: { readonly timeZone: string; readonly reading: Reading },
): readonly string[] =>
  troubles.map((trouble) => {
    if (trouble.kind === 'backup is old')
      return trouble.madeAt === null
        ? 'No backup has been made yet, though two nights have passed. Whoever keeps this machine should look why.'
        : `The newest backup is from ${formatDay(dateInZone(trouble.madeAt, timeZone), reading)}, older than two days. Whoever keeps this machine should look why.`;
    const { work, forOn, words } = trouble;
    return `${workWords[work]} of ${formatDay(forOn, reading)} could not be ${work === 'letter' ? 'sent' : 'made'}: ${words}`;
  });
