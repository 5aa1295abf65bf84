import type { Notice } from '../notice.ts';
import type { NoticePicture } from '../notice-picture.ts';

/** Processing depends on altitude, which is asked and never assumed. */
export const altitudeUnknown = (picture: NoticePicture): Notice[] =>
  picture.altitudeFt === null
    ? [
        {
          kind: 'altitude unknown',
          subject: 'kitchen',
          reason:
            'We don’t know the altitude of your kitchen. Times and pressures depend on it, so no canning day can be planned until you enter it.',
          dueOn: null,
        },
      ]
    : [];
