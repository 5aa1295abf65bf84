import type { HouseholdFacts } from '../../../src/household/facts.ts';
import type { RecordedSinceProps } from '../../../views/pages/targets/recorded-since.tsx';
import { formatDate } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import type { StateOfForm } from '../shared/answer-form.ts';

export function presentRecordedSince(
  { household }: Pick<HouseholdFacts, 'household'>,
  reading: Reading,
  state: StateOfForm,
): RecordedSinceProps {
  const { recordedSince } = household;
  return {
    form: state('recorded-since', { since: recordedSince ?? '' }),
    line:
      recordedSince === null
        ? 'What you eat of a food counts from the first thing you wrote down at the time: a jar taken, a count, a batch of that week. Older jars you write down later only count as stock.'
        : `You said that you have written down everything since ${formatDate(recordedSince, reading)}; weeks before it don’t count.`,
  };
}
