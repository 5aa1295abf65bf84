import { bounds, letters } from '../bounds.ts';
import { namesAsTyped, namesIn } from '../hands.ts';
import { optionalTextField } from './form-fields.ts';

/** `Ann, Ben`: each gets a list of their own, and so many pairs of hands are planned with. */
export const whoIsThere = optionalTextField('Who is there', letters.whoIsThere)
  .prefault('')
  .refine(
    (names) => namesIn(names).length <= bounds.peopleAtWork.to,
    `Who is there takes ${bounds.peopleAtWork.to} names at most. Leave out who only looks on.`,
  )
  .transform((names) => namesAsTyped(namesIn(names)));
