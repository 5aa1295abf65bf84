import { cite } from '../citation.ts';
import { type SessionStep, step } from './session-step.ts';

/** What comes after the canner, the same for every load: rest, seals, washing, label, shelf. */
export const afterSteps = (): readonly SessionStep[] => [
  step('do-not-tighten', 'Do not tighten the bands again.', cite('USDA-G1', 'p1-16, p1-25')),
  step('cool', 'Leave the jars alone at room temperature for 12 to 24 hours.', cite('USDA-G1', 'p1-25')),
  step('bands-off', 'Then take the bands off.', cite('USDA-G1', 'p1-25')),
  step(
    'check-seals',
    'Check every seal: the lid does not spring when pressed, rings high when tapped, and is curved in.',
    cite('USDA-G1', 'p1-25'),
  ),
  step(
    'unsealed',
    'A jar that did not seal, within 24 hours: look for a nicked rim and process it again in the same way with a new lid for the whole time; or freeze it with 1½ inches free; or refrigerate it and eat it within days.',
    cite('USDA-G1', 'p1-26'),
  ),
  step(
    'wash',
    'Wash lids and jars of what sealed, rinse and dry; leave the bands off.',
    cite('USDA-G1', 'p1-26'),
  ),
  step('label', 'Label each jar with the food, the date and the load.', cite('USDA-G1', 'p1-26')),
  step(
    'store',
    'Store clean, dark and dry at 50 to 70 °F; never above 95 °F, near heat, or where it freezes.',
    cite('USDA-G1', 'p1-12, p1-26'),
  ),
  step('use-within', 'Best eaten within a year.', cite('USDA-G1', 'p1-26')),
];
