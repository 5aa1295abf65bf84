import { type Citation, cite } from './citation.ts';

const hourMs = 3_600_000;
/** USDA Complete Guide 1, p1-25 (check after 12 to 24 hours) and p1-26 (reprocess within 24 hours). */
const checkAfterHours = { least: 12, most: 24 } as const;
const reprocessWithinHours = 24;

/** When the seals of jars taken out of the canner at an instant are to be checked. Instants are UTC milliseconds. */
export const sealCheckWindow = (unloadedAt: number): { readonly from: number; readonly to: number } => ({
  from: unloadedAt + checkAfterHours.least * hourMs,
  to: unloadedAt + checkAfterHours.most * hourMs,
});

/** How a seal is tested: press, tap, look. */
export const sealTests: readonly { readonly text: string; readonly source: Citation }[] = [
  'Press the middle of the lid: it must not spring back.',
  'Tap it with a spoon: a sealed lid rings high, an unsealed one sounds dull.',
  'Hold it level with the eye: the lid is curved in.',
].map((text) => ({ text, source: cite('USDA-G1', 'p1-25') }));

export type FailedSealChoice = 'reprocess' | 'freeze' | 'refrigerate' | 'discard';

export interface FailedSealAdvice {
  readonly choice: FailedSealChoice;
  readonly text: string;
  readonly source: Citation;
}

export interface FailedSeal {
  /** Hours from the end of processing to now. */
  readonly hoursSinceProcessed: number;
  /** Whether the tested recipe has a hot pack, which reprocessing needs. */
  readonly hotPackPrinted: boolean;
  /** Days an opened jar of this food keeps cold. */
  readonly keepColdDays: number;
}

/**
 * What can be done with a jar whose lid did not seal, found at the check within 24 hours of processing: reprocess with a
 * new lid for the whole time, freeze, or refrigerate. Later than that it is no longer this case: the food is discarded.
 *
 * Sources: USDA Complete Guide 1, p1-26; University of Nebraska and Kansas State University extension pages (hot pack).
 */
export const failedSealAdvice = (jar: FailedSeal): readonly FailedSealAdvice[] => {
  if (!(jar.hoursSinceProcessed >= 0 && jar.hoursSinceProcessed <= reprocessWithinHours)) {
    return [
      {
        choice: 'discard',
        text: 'More than 24 hours have passed since processing. Discard the food without tasting it.',
        source: cite('FSSITE-FAQ', 'reprocessing unsealed jars'),
      },
    ];
  }
  const reprocess: FailedSealAdvice = {
    choice: 'reprocess',
    text: 'Look for a nicked rim, reheat the food, fill a clean hot jar, use a new lid, and process the whole time again within 24 hours of the first processing.',
    source: cite('USDA-G1', 'p1-26'),
  };
  return [
    ...(jar.hotPackPrinted ? [reprocess] : []),
    {
      choice: 'freeze',
      text: 'Take food out until 1½ inches are free below the rim, and freeze the jar.',
      source: cite('USDA-G1', 'p1-26'),
    },
    {
      choice: 'refrigerate',
      text: `Refrigerate the jar and eat it within ${jar.keepColdDays} days.`,
      source: cite('USDA-G1', 'p1-26'),
    },
  ];
};
