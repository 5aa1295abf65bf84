import { parseArgs } from 'node:util';
import { counted } from '../../shared/counting.ts';
import { type JarSize, jarSize, jarSizes } from '../../shared/jar.ts';
import { type Pack, type ProcessTimeRow, pack } from '../../shared/schemas/reference/process-time.ts';
import { readTypedNumber } from '../../shared/typed-number.ts';
import { asDate, type CalendarDate, calendarDate } from '../../shared/week.ts';
import { gaugeInDate } from '../../src/preserving/canner.ts';
import { inWords } from '../../src/preserving/citation.ts';
import { clockStarts } from '../../src/preserving/day/load-time.ts';
import {
  type KnownAltitude,
  knownAltitude,
  lookUpLimits,
} from '../../src/preserving/lookup/altitude-echo.ts';
import { inInches, kitchenAmount, shownPressure } from '../../src/preserving/lookup/display-units.ts';
import { type FoodCondition, foodConditions } from '../../src/preserving/lookup/food-conditions.ts';
import { chosenSchedule, schedulesFor } from '../../src/preserving/lookup/process-lookup.ts';
import { rowConditions } from '../../src/preserving/lookup/row-conditions.ts';
import {
  type Gauge,
  gauges,
  type ProcessMethod,
  type ProcessQuery,
  type Schedule,
} from '../../src/preserving/lookup/schedule.ts';
import { methodRefusal, unsafeMethods } from '../../src/preserving/lookup/unsafe-methods.ts';
import type { Refusal } from '../../src/preserving/refusal.ts';
import { type Caution, cautionsFor, everyCaution } from '../../src/preserving/sheet/cautions.ts';
import { needsSterileJars, sterilizingMinutes } from '../../src/preserving/sheet/sterile-jars.ts';
import { loadReferenceTables } from '../reference/load-reference.ts';

const usage = `Usage: shelfward process-time --food KEY [--style TEXT] --pack hot|raw|none --jar SIZE
         --method boiling-water|atmospheric-steam|pressure [--gauge dial|weighted]
         --altitude-ft FEET | --altitude-m METERS
         [--minutes N] [--psi N]           which printed alternative
         [--gauge-checked DATE] [--on DATE]   a dial gauge counts for 365 days after its check
         [--condition NAME]...             ${foodConditions.join(', ')}
         [--json]
Jar sizes: ${jarSizes.join(', ')}
`;

const options = {
  food: { type: 'string' },
  style: { type: 'string' },
  pack: { type: 'string' },
  jar: { type: 'string' },
  method: { type: 'string' },
  gauge: { type: 'string' },
  'altitude-ft': { type: 'string' },
  'altitude-m': { type: 'string' },
  minutes: { type: 'string' },
  psi: { type: 'string' },
  'gauge-checked': { type: 'string' },
  on: { type: 'string' },
  condition: { type: 'string', multiple: true },
  json: { type: 'boolean', default: false },
  help: { type: 'boolean', short: 'h', default: false },
} as const;

const answered = 0;
const refusedAnswer = 1;
const notUnderstood = 2;
const toBeChosen = 3;

class UsageError extends Error {}

/**
 * Prints the published schedule, or the refusal with its rule. Exit code 0 answered, 1 refused, 2 not understood, 3 when the
 * table prints several schedules and one of them must be named.
 */
export const run = async (args: readonly string[]): Promise<number> => {
  try {
    const { values } = parseArgs({ args: [...args], options, strict: true, allowPositionals: false });
    if (values.help) {
      process.stdout.write(usage);
      return answered;
    }
    return answer(values);
  } catch (error) {
    if (!(error instanceof UsageError) && !isArgumentError(error)) throw error;
    console.error(
      `${error instanceof Error ? error.message : String(error)}. Run it with --help to see what it takes.`,
    );
    return notUnderstood;
  }
};

const isArgumentError = (error: unknown): boolean =>
  error instanceof TypeError && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS');

type Values = ReturnType<typeof parseArgs<{ options: typeof options }>>['values'];

const answer = (values: Values): number => {
  const json = values.json === true;
  const unsafe = unsafeMethods.find((method) => method === values.method);
  if (unsafe) return refuse([methodRefusal(unsafe)], json);

  const tables = loadReferenceTables();
  const altitude = altitudeFrom(values, tables.processTimes);
  const query = queryFrom(values, altitude);
  if (!json) process.stdout.write(`${altitude.echo}\n`);
  const ruling = gaugeInDate(
    schedulesFor(tables, query),
    query,
    gaugeCheckFrom(values),
    sessionFrom(values),
    tables,
  );
  if (!ruling.ok) return refuse(ruling.problems, json);
  const chosen = chosenSchedule(ruling.value, null);
  if (!chosen.ok) return ask(ruling.value, chosen.problems, json);

  const schedule = chosen.value;
  const onlyIf = rowConditions(tables, schedule);
  process.stdout.write(
    json
      ? `${JSON.stringify({
          ok: true,
          minutes: schedule.minutes,
          psi: schedule.psi,
          schedule: { ...schedule, cautions: cautionsFor(schedule) },
          onlyIf,
          altitude: altitude.echo,
        })}\n`
      : inText(schedule, onlyIf),
  );
  return answered;
};

/** The table prints several: they are listed, and none of them is given as the answer. */
const ask = (
  schedules: readonly [Schedule, ...Schedule[]],
  problems: readonly Refusal[],
  json: boolean,
): number => {
  const [first] = schedules;
  const cautions = cautionsFor(first);
  if (json) {
    const choices = schedules.map(({ minutes, psi, rowKey, source }) => ({ minutes, psi, rowKey, source }));
    process.stdout.write(
      `${JSON.stringify({ ok: false, minutes: null, psi: null, schedule: null, choices, problems, cautions })}\n`,
    );
    return toBeChosen;
  }
  const lines = [
    `${first.food}: ${first.style}, ${first.pack} pack, ${first.jar} jars`,
    `  Choose: the table prints ${schedules.length} schedules. Follow one of them whole, never a mixture:`,
    ...schedules.map(({ minutes, psi }) => `    --minutes ${minutes} --psi ${psi}`),
    `  Source: ${inWords(first.source)}`,
    ...cautions.map(cautionInText),
  ];
  process.stdout.write(`${lines.join('\n')}\n`);
  return toBeChosen;
};

const refuse = (problems: readonly Refusal[], json: boolean): number => {
  if (json) process.stdout.write(`${JSON.stringify({ ok: false, problems, cautions: everyCaution })}\n`);
  else {
    for (const problem of problems) {
      process.stdout.write(
        `No schedule: ${problem.rule}.\n  Source: ${inWords(problem.source)}\n  Instead: ${problem.instead}\n`,
      );
    }
    if (problems.some(({ code }) => code === 'dial-gauge-unchecked'))
      process.stdout.write('  Checked already? Say when with --gauge-checked DATE.\n');
    for (const caution of everyCaution) process.stdout.write(`${cautionInText(caution)}\n`);
  }
  return refusedAnswer;
};

const cautionInText = ({ text, source }: Caution): string =>
  `  - ${text}${source.basis === 'memory' ? ' (from memory)' : ''}`;

const queryFrom = (values: Values, { altitudeFt }: KnownAltitude): ProcessQuery => {
  const { method, gauge } = methodFrom(needed(values.method, '--method'), values.gauge);
  return {
    foodKey: needed(values.food, '--food'),
    ...(values.style === undefined ? {} : { style: values.style }),
    pack: packFrom(needed(values.pack, '--pack')),
    jar: jarFrom(needed(values.jar, '--jar')),
    method,
    ...(gauge === undefined ? {} : { gauge }),
    altitudeFt,
    choice: {
      ...(values.minutes === undefined ? {} : { minutes: numberFrom(values.minutes, '--minutes') }),
      ...(values.psi === undefined ? {} : { psi: numberFrom(values.psi, '--psi') }),
    },
    conditions: (values.condition ?? []).map(conditionFrom),
  };
};

const needed = (value: string | undefined, name: string): string => {
  if (value === undefined || value === '') throw new UsageError(`${name} is missing`);
  return value;
};

const numberFrom = (text: string, name: string): number => {
  const read = readTypedNumber(text);
  if (read.kind === 'number' && read.isPlain) return read.value;
  throw new UsageError(`${name} cannot be “${text}”: write a number in plain digits`);
};

const packFrom = (text: string): Pack => {
  const parsed = pack.safeParse(text);
  if (!parsed.success) throw new UsageError(`--pack cannot be “${text}”: choose hot, raw or none`);
  return parsed.data;
};

const jarFrom = (text: string): JarSize => {
  const parsed = jarSize.safeParse(text.split('/')[0]);
  if (!parsed.success) {
    throw new UsageError(`--jar cannot be “${text}”: choose ${jarSizes.join(', ')}; no other jar has a rule`);
  }
  return parsed.data;
};

const methodFrom = (
  text: string,
  gaugeText: string | undefined,
): { readonly method: ProcessMethod; readonly gauge: Gauge | undefined } => {
  const gauge = gauges.find((known) => known === gaugeText);
  if (gaugeText !== undefined && gauge === undefined) {
    throw new UsageError(`--gauge cannot be “${gaugeText}”: choose dial or weighted`);
  }
  if (text === 'boiling-water') return { method: 'boiling-water', gauge };
  if (text === 'atmospheric-steam' || text === 'steam') return { method: 'atmospheric-steam', gauge };
  if (text === 'pressure') return { method: 'pressure', gauge };
  const inName = gauges.find((known) => text === `pressure-${known}`);
  if (inName && (gauge === undefined || gauge === inName)) return { method: 'pressure', gauge: inName };
  if (inName) throw new UsageError(`--method ${text} and --gauge ${gauge} contradict each other`);
  throw new UsageError(`--method cannot be “${text}”: choose boiling-water, atmospheric-steam or pressure`);
};

const altitudeFrom = (values: Values, rows: readonly ProcessTimeRow[]): KnownAltitude => {
  const feet = values['altitude-ft'];
  const metres = values['altitude-m'];
  if (feet !== undefined && metres !== undefined)
    throw new UsageError('Give the altitude once, in feet or in meters');
  if (feet !== undefined) return altitudeTyped(feet, 'ft', rows);
  if (metres !== undefined) return altitudeTyped(metres, 'm', rows);
  throw new UsageError('Give the altitude with --altitude-ft or --altitude-m; it is never guessed');
};

const altitudeTyped = (text: string, unit: 'ft' | 'm', rows: readonly ProcessTimeRow[]): KnownAltitude => {
  const known = knownAltitude(rows, text, unit, { limits: lookUpLimits });
  if (known.ok) return known.value;
  throw new UsageError(
    `--altitude-${unit}: ${known.problems.map(({ message }) => message.replace(/\.$/, '')).join('. ')}`,
  );
};

const conditionFrom = (text: string): FoodCondition => {
  const condition = foodConditions.find((known) => known === text);
  if (!condition)
    throw new UsageError(`--condition cannot be “${text}”: choose ${foodConditions.join(', ')}`);
  return condition;
};

const dateFrom = (text: string, name: string) => {
  const parsed = calendarDate.safeParse(text);
  if (!parsed.success) throw new UsageError(`${name} cannot be “${text}”: write a day like 2026-08-17`);
  return parsed.data;
};

/** The day of the last check of the gauge; null when none was named, or it never was. */
const gaugeCheckFrom = (values: Values): CalendarDate | null => {
  const checked = values['gauge-checked'];
  return checked === undefined || checked === 'never' ? null : dateFrom(checked, '--gauge-checked');
};

const sessionFrom = ({ on }: Values): CalendarDate =>
  on === undefined ? asDate(new Date().toISOString().slice(0, 10)) : dateFrom(on, '--on');

const inText = (schedule: Schedule, onlyIf: readonly string[]): string => {
  const lines = [
    `${schedule.food}: ${schedule.style}, ${schedule.pack} pack, ${schedule.jar} jars`,
    `  ${largeLine(schedule)}`,
    `  Altitude ${schedule.altitudeFt.toLocaleString('en-US')} ft, band ${bandInWords(schedule)}`,
    `  The clock starts ${clockStarts[schedule.method]}.`,
    ...(schedule.headspaceIn === null ? [] : [`  Headspace ${kitchenAmount(schedule.headspaceIn)} inch`]),
    `  ${needsSterileJars(schedule) ? `Boil the empty jars ${counted(sterilizingMinutes(schedule.altitudeFt), 'minute')} first.` : 'Clean hot jars.'}`,
    ...(schedule.waterAboveJarsIn === null
      ? []
      : [`  Water at least ${inInches(schedule.waterAboveJarsIn)} above the jars`]),
    ...(schedule.acid ? [`  Into each jar: ${schedule.acid.oneOf.map(acidInWords).join(', or ')}`] : []),
    ...(schedule.jarRule
      ? [`  Jar rule: ${schedule.jarRule.rule} (${inWords(schedule.jarRule.source)})`]
      : []),
    ...onlyIf.map((condition) => `  Only if: ${condition}`),
    `  Source: ${inWords(schedule.source)}`,
    ...cautionsFor(schedule).map(cautionInText),
  ];
  return `${lines.join('\n')}\n`;
};

const largeLine = (schedule: Schedule): string => {
  const time = `${schedule.minutes} MINUTES`;
  if (schedule.psi === null)
    return `${time}, ${schedule.method === 'boiling-water' ? 'boiling-water canner' : 'atmospheric steam canner'}`;
  return `${time} at ${shownPressure(schedule.psi)} PSI, pressure canner, ${schedule.gauge} gauge`;
};

const bandInWords = ({ bandFromFt, bandToFt }: Schedule): string =>
  bandToFt === null
    ? `${bandFromFt.toLocaleString('en-US')} ft and above`
    : `${bandFromFt.toLocaleString('en-US')} to ${bandToFt.toLocaleString('en-US')} ft`;

const acidInWords = ({ quantity, unit, acid }: { quantity: number; unit: string; acid: string }): string =>
  `${kitchenAmount(quantity)} ${unit} ${acid.replaceAll('_', ' ').replace('5pct', '5%')}`;
