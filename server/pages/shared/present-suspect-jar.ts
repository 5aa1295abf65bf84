import { type SuspectJar, suspectJarHandling } from '../../../src/preserving/afterwards/found-unsealed.ts';
import { inWords } from '../../../src/preserving/citation.ts';
import type { SuspectJarProps } from '../../../views/pages/shelf/suspect-jar.tsx';

/** How a jar reported swollen, leaking or unsealed is handled, by the published guide and how acid its food is. */
export function presentSuspect(itemName: string, jar: Omit<SuspectJar, 'stillSealed'>): SuspectJarProps {
  const open = suspectJarHandling({ ...jar, stillSealed: false });
  const swollen = suspectJarHandling({ ...jar, stillSealed: true });
  const texts = (steps: typeof open) => steps.map(({ text }) => text);
  const alike = texts(open).join() === texts(swollen).join();
  const sources = new Set([...open, ...swollen].map(({ source }) => inWords(source)));
  return {
    title: `${itemName}: do not taste it`,
    cases: alike
      ? [{ title: null, steps: texts(open) }]
      : [
          { title: 'Open, leaking or loose', steps: texts(open) },
          { title: 'Swollen, still sealed', steps: texts(swollen) },
        ],
    source: `Source: ${[...sources].join('; ')}. Look at the other jars of its batch too. When in doubt, ask your local extension service.`,
  };
}
