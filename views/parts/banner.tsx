import type { Message } from '../layout/frame.ts';

/** A message with its tone in words for those who do not see it. */
export const Banner = ({ message }: { message: Message }) => (
  <p class={`banner banner-${message.tone}`} role={message.tone === 'problem' ? 'alert' : 'status'}>
    {message.tone === 'problem' ? <strong>Not done. </strong> : null}
    {message.text}
    {message.action === undefined ? null : (
      <>
        {' '}
        <a href={message.action.href}>{message.action.words}</a>
      </>
    )}
  </p>
);
