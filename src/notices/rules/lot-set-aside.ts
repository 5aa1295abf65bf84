import { dayMark } from '../marks.ts';
import type { Notice } from '../notice.ts';
import type { NoticePicture } from '../notice-picture.ts';
import { amountWords } from '../notice-words.ts';

/** A lot set aside is not eaten and not counted on; the notice stands until it is released or discarded. */
export const lotSetAside = (picture: NoticePicture): Notice[] =>
  picture.lots.flatMap((lot) =>
    lot.setAside === null || lot.left <= 0
      ? []
      : [
          {
            kind: 'set aside',
            subject: `lot:${lot.lotId}`,
            reason:
              `Do not eat: ${amountWords(lot.left, lot.unit)} of ${lot.itemName} ${lot.came} on ${dayMark(lot.madeOn)} ` +
              `and set aside on ${dayMark(lot.setAside.on)} (${lot.setAside.reason}). Release or discard them.`,
            dueOn: null,
          },
        ],
  );
