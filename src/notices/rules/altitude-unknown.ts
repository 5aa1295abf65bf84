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
            'The altitude of the kitchen is not known. Times and pressures depend on it, so no canning session can be planned until it is entered.',
          dueOn: null,
          action: { label: 'Enter the altitude', key: 'enter altitude', of: 'kitchen' },
        },
      ]
    : [];
