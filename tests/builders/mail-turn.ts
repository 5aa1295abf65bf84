import type { Database } from '../../server/database/database.ts';
import { openMailJob } from '../../server/jobs/mail-job.ts';
import { smtpMailer } from '../../server/mail/mailer.ts';
import { loadReferenceTables } from '../../server/reference/load-reference.ts';

const reference = loadReferenceTables();

/** One turn of the job that sends letters, at an instant, to a mail server on this machine. */
export async function mailTurn(db: Database, at: number, port: number): Promise<void> {
  const job = openMailJob({
    db,
    reference,
    now: () => at,
    mailer: smtpMailer({ smtp: `smtp://127.0.0.1:${port}`, from: 'Shelfward <pantry@localhost>' }),
    address: 'http://pantry.test',
    onError: (cause) => {
      throw cause;
    },
  });
  await job.run();
  await job.close();
}
