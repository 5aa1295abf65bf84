import { Banner } from './banner.tsx';

/** What the program could not do by itself; nothing while all went well. */
export const Troubles = ({ troubles }: { readonly troubles: readonly string[] }) => (
  <>
    {troubles.map((text) => (
      <Banner
        key={text}
        message={{ tone: 'note', text, action: { words: 'What was done at night', href: '/jobs' } }}
      />
    ))}
  </>
);
