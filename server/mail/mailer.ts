import nodemailer from 'nodemailer';
import type { Letter } from '../queries/notices/letters.ts';
import type { MailSettings } from '../settings.ts';

/** Sends one letter; rejects with the reason when it could not. */
export interface Mailer {
  send(letter: Letter): Promise<void>;
  close(): void;
}

/** Which server letters go through and from whom, without the name and password it is entered with. */
export function mailServerOf({ smtp, from }: Pick<MailSettings, 'smtp' | 'from'>): {
  readonly server: string;
  readonly from: string;
} {
  return { server: URL.canParse(smtp) ? new URL(smtp).host : 'a mail server', from };
}

const isOnThisMachine = (smtp: string): boolean =>
  URL.canParse(smtp) && ['localhost', '127.0.0.1', '[::1]'].includes(new URL(smtp).hostname);

const patienceMs = 20_000;

/** Letters by SMTP. The same letter keeps its Message-ID, so that one sent twice is known as one. */
export function smtpMailer({
  smtp,
  from,
  mayBePlain = false,
}: Pick<MailSettings, 'smtp' | 'from'> & Partial<Pick<MailSettings, 'mayBePlain'>>): Mailer {
  const transport = nodemailer.createTransport({
    url: smtp,
    // A letter and the password of the server cross no network in the clear unless the operator says so.
    requireTLS: !mayBePlain && !isOnThisMachine(smtp),
    connectionTimeout: patienceMs,
    greetingTimeout: patienceMs,
    socketTimeout: patienceMs,
    disableFileAccess: true,
    disableUrlAccess: true,
  });
  return {
    send: async (letter) => {
      await transport.sendMail({
        from,
        to: letter.recipient,
        subject: letter.subject,
        text: letter.plain,
        html: letter.html,
        messageId: `<${letter.id}@shelfward>`,
        headers: { 'auto-submitted': 'auto-generated' },
      });
    },
    close: () => transport.close(),
  };
}
