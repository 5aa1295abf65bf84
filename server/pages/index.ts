import type { FastifyPluginAsync } from 'fastify';
import buying from './buying/routes.ts';
import calendar from './calendar/routes.ts';
import canningLoads from './canning-day/load-routes.ts';
import canningResults from './canning-day/result-routes.ts';
import canningDay from './canning-day/routes.ts';
import canningSheets from './canning-day/sheet-routes.ts';
import files from './files/routes.ts';
import foundUnsealed from './found-unsealed/routes.ts';
import glut from './glut/routes.ts';
import harvest from './harvest/routes.ts';
import harvestsLost from './harvest/without-routes.ts';
import ofThings from './interface/routes.ts';
import newItems from './items/new-item-routes.ts';
import items from './items/routes.ts';
import jobs from './jobs/routes.ts';
import kitchen from './kitchen/routes.ts';
import labels from './labels/routes.ts';
import lookBack from './look-back/routes.ts';
import throughYears from './look-back/years-routes.ts';
import mailAddress from './notices/mail-address-routes.ts';
import notices from './notices/routes.ts';
import noticeSettings from './notices/setting-routes.ts';
import connectedThings from './people/connected-thing-routes.ts';
import invitations from './people/invitation-routes.ts';
import ownAccount from './people/own-account-routes.ts';
import ownHouseholds from './people/own-household-routes.ts';
import passphraseReset from './people/passphrase-reset-routes.ts';
import people from './people/routes.ts';
import signIn from './people/sign-in-routes.ts';
import powerCut from './power-cut/routes.ts';
import print from './print/routes.ts';
import processTimes from './process-time/routes.ts';
import safety from './safety/routes.ts';
import search from './search/routes.ts';
import asideRoutes from './set-aside/routes.ts';
import ownDevice from './shared/own-device.ts';
import shelfConflicts from './shelf/conflict-routes.ts';
import shelfCounts from './shelf/count-routes.ts';
import shelfSheet from './shelf/door-sheet-routes.ts';
import shelfLots from './shelf/lot-routes.ts';
import offline from './shelf/offline-routes.ts';
import shelfOpenJars from './shelf/open-jar-routes.ts';
import shelfPlaces from './shelf/place-routes.ts';
import shelfReversals from './shelf/reversal-routes.ts';
import shelf from './shelf/routes.ts';
import shelfTakes from './shelf/take-routes.ts';
import stages from './stages/routes.ts';
import start from './start/routes.ts';
import targets from './targets/routes.ts';
import upkeep from './upkeep/routes.ts';
import thisWeek from './week/routes.ts';
import words from './words/routes.ts';
import plans from './year/plan-routes.ts';
import year from './year/routes.ts';

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
  safety,
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
  harvestsLost,
  kitchen,
  lookBack,
  throughYears,
  calendar,
  print,
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
  upkeep,
  connectedThings,
  ofThings,
];
