import { counted } from '../../../shared/counting.ts';
import { type Citation, cite } from '../citation.ts';
import { clockStarts } from '../day/load-time.ts';
import { inInches, shownPressure } from '../lookup/display-units.ts';
import type { Schedule } from '../lookup/schedule.ts';
import { type SessionStep, step } from './session-step.ts';

/** Water in the canner before the jars go in; 140 °F for raw packs, 180 °F for hot ones. */
export const waterSteps = (schedule: Schedule): readonly SessionStep[] => {
  switch (schedule.method) {
    case 'boiling-water':
      return [
        step('water-ready', 'Fill the canner half with clean water.', cite('USDA-G1', 'p1-18')),
        warmWater(schedule, cite('USDA-G1', 'p1-18')),
      ];
    case 'atmospheric-steam':
      return [
        step(
          'water-ready',
          'Put in as much water as the maker of the steam canner says, and set the rack in.',
          cite('NCHFP-STEAM', 'fact sheet'),
        ),
        warmWater(schedule, asInBoilingWater),
      ];
    case 'pressure':
      return [pressureWater(schedule)];
  }
};

/** What no sheet for steam says is done as with the canner it stands in for. */
const asInBoilingWater = cite('USDA-G1', 'p1-18, as in a boiling-water canner');

const warmWater = ({ pack }: Schedule, source: Citation): SessionStep =>
  step(
    'water-warm',
    pack === 'hot'
      ? 'Have that water at 180 °F when the jars go in, for a hot pack.'
      : 'Have that water at 140 °F when the jars go in, for a raw pack.',
    source,
  );

/** Fish has its own printed amounts of water. */
const pressureWater = ({ foodKey, printedJar }: Schedule): SessionStep => {
  if (foodKey === 'smoked-fish')
    return step('water-ready', 'Put 4 quarts of cool tap water into the canner.', cite('USDA-G5', 'p5-13'));
  if (foodKey === 'fish' && printedJar === 'quart')
    return step('water-ready', 'Put 3 quarts of water into the canner.', cite('USDA-G5', 'p5-12'));
  return step('water-ready', 'Put 2 to 3 inches of hot water into the canner.', cite('USDA-G1', 'p1-21'));
};

/** From the jars going in to the jars standing on the towel. */
export const cannerSteps = (schedule: Schedule): readonly SessionStep[] => {
  switch (schedule.method) {
    case 'boiling-water':
      return boilingWaterSteps(schedule);
    case 'atmospheric-steam':
      return steamSteps(schedule);
    case 'pressure':
      return pressureSteps(schedule);
  }
};

const clock = (schedule: Schedule): SessionStep =>
  step(
    'process',
    `Process ${counted(schedule.minutes, 'minute')}${schedule.psi === null ? '' : ` at ${shownPressure(schedule.psi)} psi`}. The clock starts ${clockStarts[schedule.method]}.`,
    schedule.source,
  );

const uprightOnRack = 'Set the jars on the rack with a jar lifter, upright all the time';
const ontoTowel =
  'Lift the jars straight up onto a towel or rack, an inch apart, out of drafts. Do not tilt them.';

const boilingWaterSteps = (schedule: Schedule): readonly SessionStep[] => {
  const page = cite('USDA-G1', 'p1-18');
  return [
    step('load', `${uprightOnRack}.`, page),
    step(
      'water-over',
      `Add boiling water until it stands at least ${inInches(schedule.waterAboveJarsIn ?? 1)} above the jars.`,
      page,
    ),
    step(
      'heat',
      'Turn the heat to its highest, put the lid on, and heat until the water boils vigorously.',
      page,
    ),
    clock(schedule),
    step(
      'keep-boiling',
      'Keep it covered and boiling the whole time; add boiling water when the level sinks.',
      page,
    ),
    step(
      'restart',
      'What counts is one unbroken boil: if it stops, bring it back to a vigorous boil and start the whole time again from zero.',
      page,
    ),
    step('heat-off', 'Turn the heat off and take the lid off.', page),
    step('wait', 'Wait 5 minutes before any jar is taken out.', page),
    step('lift', ontoTowel, page),
  ];
};

const steamSteps = (schedule: Schedule): readonly SessionStep[] => {
  const page = cite('NCHFP-STEAM', 'fact sheet');
  return [
    step('load', `${uprightOnRack}, and cover them.`, page),
    step('steam', 'Heat until a full column of steam comes steadily from the vents.', page),
    clock(schedule),
    step('keep-steaming', 'Keep the steam flowing the whole time, and the canner closed.', page),
    step(
      'restart',
      'What counts is one unbroken flow of steam: if it stops or the canner runs dry, start the whole time again from zero.',
      page,
    ),
    step('heat-off', 'Turn the heat off.', asInBoilingWater),
    step('wait', 'Wait 5 minutes, then lift the lid away from you.', asInBoilingWater),
    step('lift', ontoTowel, asInBoilingWater),
  ];
};

const pressureSteps = (schedule: Schedule): readonly SessionStep[] => {
  const page = cite('USDA-G1', 'p1-22');
  const fishQuarts = schedule.foodKey === 'fish' && schedule.printedJar === 'quart';
  return [
    step('load', `${uprightOnRack}, and fasten the lid.`, cite('USDA-G1', 'p1-21')),
    step(
      'steam',
      fishQuarts
        ? 'Leave the vent open and heat at the highest setting until steam flows freely; heating and venting together take at least 30 minutes.'
        : 'Leave the vent open and heat at the highest setting until steam flows freely.',
      fishQuarts ? cite('USDA-G5', 'p5-12') : cite('USDA-G1', 'p1-21'),
    ),
    step(
      'vent',
      'Let steam stream from the open vent for 10 minutes.',
      cite('USDA-G1', 'p1-20, p1-22'),
      true,
    ),
    step('pressurize', 'Set the weight on or close the petcock; the pressure comes in 3 to 5 minutes.', page),
    clock(schedule),
    step(
      'keep-pressure',
      'Keep the pressure at or slightly above the one printed, without wide swings.',
      page,
    ),
    step(
      'restart',
      'What counts is one unbroken time at pressure: if it falls below, bring it back and start the whole time again from zero.',
      page,
    ),
    step(
      'heat-off',
      'Turn the heat off and let the pressure fall by itself; never cool the canner or open the vent.',
      page,
    ),
    step(
      'wait',
      'When no pressure is left take the weight off, wait 10 minutes, and lift the lid away from you.',
      page,
    ),
    step('lift', ontoTowel, page),
  ];
};
