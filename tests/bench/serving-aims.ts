import type { Looks } from './onlooker.ts';

/** How the serving process stood while it was sent the worst. */
export interface Served {
  readonly onlooker: Looks;
  /** The most the serving process held, its threads included and its clients not. */
  readonly mostMemoryInMb: number;
}

/** Nobody else waits longer, and the process holds no more. */
export const servingAims = { slowestMs: 2000, memoryInMb: 500 } as const;

export const servingInWords = ({ onlooker, mostMemoryInMb }: Served): string =>
  `Serving process: at most ${Math.round(mostMemoryInMb)} MB. Somebody else, ${onlooker.looks} looks: median ${onlooker.medianMs.toFixed(1)} ms, slowest ${Math.round(onlooker.slowestMs)} ms, answers other than the page ${JSON.stringify(onlooker.others)}.`;

export const aimsMissed = ({ onlooker, mostMemoryInMb }: Served): readonly string[] => [
  ...(mostMemoryInMb > servingAims.memoryInMb
    ? [`Not held: the serving process took more than ${servingAims.memoryInMb} MB.`]
    : []),
  ...(onlooker.slowestMs > servingAims.slowestMs
    ? [`Not held: somebody else waited more than ${servingAims.slowestMs} ms.`]
    : []),
  ...(Object.keys(onlooker.others).some((status) => Number(status) >= 500)
    ? ['Not held: somebody else was answered with a fault.']
    : []),
];
