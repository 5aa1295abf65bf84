import type { FastifyPluginAsync } from 'fastify';
import buying from './buying.ts';
import calendar from './calendar.ts';
import canningDay from './canning-day.ts';
import canningLoads from './canning-loads.ts';
import canningResults from './canning-results.ts';
import canningSheets from './canning-sheets.ts';
import files from './files.ts';
import foundUnsealed from './found-unsealed.ts';
import glut from './glut.ts';
import harvest from './harvest.ts';
import invitations from './invitations.ts';
import items from './items.ts';
import jobs from './jobs.ts';
import kitchen from './kitchen.ts';
import labels from './labels.ts';
import lookBack from './look-back.ts';
import mailAddress from './mail-address.ts';
import newItems from './new-items.ts';
import noticeSettings from './notice-settings.ts';
import notices from './notices.ts';
import offline from './offline.ts';
import ownAccount from './own-account.ts';
import ownDevice from './own-device.ts';
import ownHouseholds from './own-households.ts';
import passphraseReset from './passphrase-reset.ts';
import people from './people.ts';
import plans from './plans.ts';
import powerCut from './power-cut.ts';
import processTimes from './process-times.ts';
import search from './search.ts';
import asideRoutes from './set-aside.ts';
import shelf from './shelf.ts';
import shelfConflicts from './shelf-conflicts.ts';
import shelfCounts from './shelf-counts.ts';
import shelfLots from './shelf-lots.ts';
import shelfOpenJars from './shelf-open-jars.ts';
import shelfPlaces from './shelf-places.ts';
import shelfReversals from './shelf-reversals.ts';
import shelfSheet from './shelf-sheet.ts';
import shelfTakes from './shelf-takes.ts';
import signIn from './sign-in.ts';
import stages from './stages.ts';
import start from './start.ts';
import targets from './targets.ts';
import thisWeek from './this-week.ts';
import words from './words.ts';
import year from './year.ts';

/** Every page of the program, one file per resource. A new page is one more line here. */
export const routes: readonly FastifyPluginAsync[] = [
  thisWeek,
  year,
  plans,
  glut,
  buying,
  canningDay,
  canningLoads,
  stages,
  canningSheets,
  canningResults,
  foundUnsealed,
  asideRoutes,
  powerCut,
  processTimes,
  notices,
  shelf,
  shelfTakes,
  shelfReversals,
  shelfLots,
  shelfConflicts,
  shelfCounts,
  start,
  newItems,
  items,
  search,
  words,
  targets,
  harvest,
  kitchen,
  lookBack,
  calendar,
  labels,
  files,
  offline,
  ownDevice,
  shelfSheet,
  shelfPlaces,
  shelfOpenJars,
  noticeSettings,
  mailAddress,
  people,
  ownAccount,
  ownHouseholds,
  jobs,
  signIn,
  invitations,
  passphraseReset,
];
