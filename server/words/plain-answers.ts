import type { PlainWords } from '../../views/pages/plain-page.tsx';

export type PlainAnswer = PlainWords & { readonly status: number };

const home = { words: 'Go to this week', href: '/' };

/** The pages for when there is no page: what happened, and the one thing to do. */
export const plainAnswers = {
  notFound: {
    status: 404,
    title: 'Page not found',
    text: 'There is no page at this address, or what it showed has been removed.',
    action: home,
  },
  noHousehold: {
    status: 404,
    title: 'No household yet',
    text: 'This file holds no household yet, so there was nothing to change. Set one up, or look around in an invented one.',
    action: { words: 'Set up your household', href: '/start' },
  },
  notAllowed: {
    status: 403,
    title: 'Not yours to change',
    text: 'Your role in this household does not allow that, so nothing was changed. An owner can give you another role.',
    action: home,
  },
  notThisName: {
    status: 421,
    title: 'Another name than ours',
    text: 'The program answers to the names it was started for and to no other; on this machine those are localhost and 127.0.0.1. Open it under the address it printed at the start.',
    action: null,
  },
  formExpired: {
    status: 403,
    title: 'That form was too old',
    text: 'The form did not carry a valid token, so nothing was changed. Go back, load the page again and send it once more.',
    action: home,
  },
  foreignForm: {
    status: 403,
    title: 'That form came from elsewhere',
    text: 'The browser says that another page sent this form, so nothing was changed. Open the program under its own address and send the form from there.',
    action: home,
  },
  sentTwice: {
    status: 409,
    title: 'Already recorded',
    text: 'This form was sent before with other values. The first one counts. Load the page again to make another change.',
    action: home,
  },
  notUnderstood: {
    status: 422,
    title: 'That could not be read',
    text: 'The form arrived in a shape this page does not know. Nothing was changed. Go back, load the page again and send it once more.',
    action: home,
  },
  tooLarge: {
    status: 413,
    title: 'Too much at once',
    text: 'A form may hold at most 1 MB. Nothing was changed. Send less at a time.',
    action: home,
  },
  tooMany: {
    status: 429,
    title: 'Too many requests',
    text: 'More requests came from this address than a household makes. Wait a minute and try again.',
    action: home,
  },
  passphrasesWait: {
    status: 503,
    title: 'Too many sign-ins at once',
    text: 'More passphrases than usual wait to be looked at, so this one was not. Wait a few seconds and send it again.',
    action: null,
  },
  plannerBusy: {
    status: 429,
    title: 'The planner is busy',
    text: 'Several questions of this household wait for the planner already, so this one was not taken. Wait until they are answered, then ask again.',
    action: home,
  },
  askerLeft: {
    status: 408,
    title: 'Nobody waited for the answer',
    text: 'The page was left before the planner had answered, so the question was dropped. Ask again.',
    action: home,
  },
  diskFull: {
    status: 507,
    title: 'The disk is full',
    text: 'There was no room to write this down, so nothing of it was kept. Make room on the disk, then send it again; what was recorded before is safe.',
    action: home,
  },
  readOnly: {
    status: 503,
    title: 'The file cannot be written',
    text: 'The household’s file or its folder is read-only, so nothing was changed. Allow the program to write there, then send it again.',
    action: home,
  },
  busy: {
    status: 503,
    title: 'The file is busy',
    text: 'Another program is writing to the household’s file, so nothing was changed. Wait a moment and send it again.',
    action: home,
  },
  unreachable: {
    status: 503,
    title: 'The database does not answer',
    text: 'Nothing was changed. Look whether the database runs, wait a moment and send it again.',
    action: home,
  },
  damaged: {
    status: 500,
    title: 'The file is damaged',
    text: 'The household’s file can no longer be read as it should. Stop the program and restore the newest backup with the command restore; the damaged file is kept.',
    action: null,
  },
  ourFault: {
    status: 500,
    title: 'Something broke here',
    text: 'This is our fault, not yours. It was written to the log. What you recorded before is safe; please try again.',
    action: home,
  },
} as const satisfies Record<string, PlainAnswer>;
