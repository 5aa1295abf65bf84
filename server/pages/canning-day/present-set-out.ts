import { wordFor } from '../../../shared/counting.ts';
import type { JarKind } from '../../../shared/jar.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import type { Material, Supply } from '../../../src/household/supplies.ts';
import type { BatchHere } from '../../../src/preserving/day/session-here.ts';
import { tradeMeasuresOf } from '../../../src/preserving/foods/trade-measures.ts';
import type { Schedule } from '../../../src/preserving/lookup/schedule.ts';
import { formatJarKind, formatNumber, formatQuantity } from '../../../views/words/format.ts';
import type { Reading } from '../../../views/words/reading.ts';
import { listed } from '../../../views/words/sentences.ts';
import type { WaitingMaterial } from '../../queries/year/waiting-material.ts';
import { cropGuessFor } from '../../reference/first-year.ts';
import { aboutWords, withoutPecks } from '../../words/buying/produce-words.ts';
import { leftOverWords } from '../../words/canning/left-over-words.ts';
import { acidInWords } from '../../words/process-words.ts';
import { supplyAmount } from '../shared/supply-amount.ts';

/** What the household has to set out. */
export interface SetOutAsked {
  readonly names: { readonly supplies: readonly Supply[] };
  readonly materials: readonly Material[];
  readonly waiting: readonly WaitingMaterial[];
}

export interface SetOutGroup {
  readonly title: string;
  readonly lines: readonly string[];
}

/** One jar more than the high yield is made ready, so that a generous batch finds a hot jar. */
const spareJars = 1;

/** Whether a batch may be canned on the day: now, once a schedule is chosen, or once its stages are done. */
const mayBeCanned = ({ canned, heldBack, alternatives }: BatchHere): boolean =>
  canned === null || canned.ok || heldBack !== null || alternatives.length > 0;

/** What stands ready before the stove is lit: jars and lids, tools, and what goes into the pots; nothing for what is refused. */
export const presentSetOut = (
  ofDay: readonly BatchHere[],
  { names: { supplies }, materials, waiting }: SetOutAsked,
  tables: Pick<ReferenceTables, 'yields' | 'measures'>,
  reading: Reading,
): readonly SetOutGroup[] => {
  const batches = ofDay.filter(mayBeCanned);
  const groups = [
    { title: 'Jars and new lids', lines: jarLines(batches, reading) },
    { title: 'Produce in all', lines: produceLines(batches, tables, reading) },
    { title: 'Left of another batch', lines: takenLines(batches, materials, waiting, reading) },
    { title: 'Ingredients', lines: supplyLines(batches, supplies, reading) },
    { title: 'By recipe', lines: batches.map((batch) => potLine(batch, supplies, materials, reading)) },
    { title: 'Tools', lines: toolLines(batches) },
  ];
  return groups.filter(({ lines }) => lines.length > 0);
};

function jarLines(batches: readonly BatchHere[], reading: Reading): string[] {
  const jarsByKind = new Map<JarKind, number>();
  for (const { recipe, batches: times } of batches) {
    if (recipe.jarKind === null) continue;
    const jars = Math.ceil(recipe.yieldHigh - 1e-9) * times + spareJars;
    jarsByKind.set(recipe.jarKind, (jarsByKind.get(recipe.jarKind) ?? 0) + jars);
  }
  return [...jarsByKind].map(
    ([kind, jars]) =>
      `${formatNumber(jars, reading)} jars (${formatJarKind(kind)}), with bands, and as many new lids; one jar is a spare`,
  );
}

/** Each crop summed over the day, with the trade measure it is bought in. */
function produceLines(
  batches: readonly BatchHere[],
  tables: Pick<ReferenceTables, 'yields' | 'measures'>,
  reading: Reading,
): string[] {
  const byCrop = new Map<string, number>();
  for (const { recipe, batches: times } of batches)
    for (const { crop, lb } of recipe.produce) byCrop.set(crop, (byCrop.get(crop) ?? 0) + lb * times);
  return [...byCrop].map(([crop, pounds]) => {
    const lb = Math.ceil(pounds * 10) / 10;
    const about = aboutWords(lb, withoutPecks(tradeMeasuresOf(crop, tables)), reading);
    return `${formatQuantity(lb, 'lb', reading)} ${cropGuessFor(crop).plural}${about === null ? '' : `, ${about}`}`;
  });
}

/** Sugar, vinegar and the like summed over the day, with the packs they are bought in. */
function supplyLines(batches: readonly BatchHere[], supplies: readonly Supply[], reading: Reading): string[] {
  const needed = new Map<string, number>();
  for (const { recipe, batches: times } of batches)
    for (const { supplyId, quantity } of recipe.supplies)
      needed.set(supplyId, (needed.get(supplyId) ?? 0) + quantity * times);
  return [...needed].flatMap(([id, quantity]) => {
    const supply = supplies.find((known) => known.id === id);
    if (!supply) return [];
    const { unit, packQuantity } = supply;
    const packs = Math.ceil(quantity / packQuantity - 1e-9);
    return [
      `${supplyAmount(quantity, unit, reading)} ${supply.name}: ${formatQuantity(packs, 'pack', reading)} of ${supplyAmount(packQuantity, unit, reading)}`,
    ];
  });
}

/** What batches of the day take of what others leave, and how much of it waits. */
function takenLines(
  batches: readonly BatchHere[],
  materials: readonly Material[],
  waiting: readonly WaitingMaterial[],
  reading: Reading,
): string[] {
  const needed = new Map<string, number>();
  for (const { recipe, batches: times } of batches)
    for (const { materialId, quantity } of recipe.uses)
      needed.set(materialId, (needed.get(materialId) ?? 0) + quantity * times);
  return [...needed].flatMap(([materialId, quantity]) => {
    const words = leftOverWords([{ materialId, quantity }], materials, reading);
    if (words === null) return [];
    const there = waiting.find(({ id }) => id === materialId);
    const left =
      there === undefined
        ? 'none waits yet: batches of this week leave it'
        : `${formatQuantity(Math.round(there.quantity * 10) / 10, there.unit, reading)} waits`;
    return [`${words}; ${left}`];
  });
}

function potLine(
  batch: BatchHere,
  supplies: readonly Supply[],
  materials: readonly Material[],
  reading: Reading,
): string {
  const { recipe, item, batches } = batch;
  const produce = recipe.produce.map(
    ({ crop, lb }) => `${formatQuantity(lb * batches, 'lb', reading)} ${cropGuessFor(crop).plural}`,
  );
  const supplied = recipe.supplies.map(({ supplyId, quantity }) => {
    const supply = supplies.find(({ id }) => id === supplyId);
    return `${supplyAmount(quantity * batches, supply?.unit ?? '', reading)} ${supply?.name ?? supplyId}`;
  });
  const schedule = batch.canned?.ok ? batch.canned.value.schedule : batch.alternatives[0];
  const acid = schedule === undefined ? null : acidPerJar(schedule);
  const taken = leftOverWords(
    recipe.uses.map((part) => ({ ...part, quantity: part.quantity * batches })),
    materials,
    reading,
  );
  const into = [...produce, ...(taken === null ? [] : [taken]), ...supplied];
  return [
    `${item.name}, ${formatQuantity(batches, 'batch', reading)}${into.length === 0 ? '' : `: ${listed(into)}`}`,
    ...(acid === null ? [] : [`Acid for each jar: ${acid}`]),
  ].join('. ');
}

const acidPerJar = ({ acid }: Schedule): string | null => {
  const [first] = acid?.oneOf ?? [];
  return first === undefined ? null : acidInWords(first);
};

// What stands around a canner is common practice, no source.
const toolLines = (batches: readonly BatchHere[]): string[] => {
  const canned = batches.flatMap(({ canned: here }) => (here?.ok ? [here.value] : []));
  if (canned.length === 0) return [];
  const canners = [...new Set(canned.map(({ canner }) => canner.name))];
  const isPressure = canned.some(({ schedule }) => schedule.method === 'pressure');
  return [
    `${listed(canners)}${wordFor(canners.length, ' with its rack', ', each with its rack')}`,
    'Jar lifter, wide funnel, a bubble freer that is not metal, a ruler for the headspace',
    'Clean cloths for rims, a folded towel for hot jars, away from drafts',
    'A clock that can be seen from the stove, a pen, the sheet of this day',
    ...(isPressure
      ? ['For the pressure canner: look through the vent, feel that the seal ring is soft, wash the weight']
      : []),
  ];
};
