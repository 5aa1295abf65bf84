import { z } from 'zod';
import { bounds, letters } from '../../shared/bounds.ts';
import { family } from '../../shared/family.ts';
import { takeOutcomes } from '../../shared/schemas/shelf/waiting-take.ts';
import { calendarDate } from '../../shared/week.ts';

// Everything that goes over the interface, one schema each: what is sent is read by it, what is answered is cut to it, and the
// description is made of it. Fields are added, never renamed or taken away.

/** What was sent, as it is repeated to whoever sent it. */
const shown = (sent: unknown): string => {
  if (sent === undefined) return 'nothing was sent';
  const text = JSON.stringify(sent) ?? String(sent);
  return `${text.length > 40 ? `${text.slice(0, 40)}…` : text} was sent`;
};
/** What we need, what was sent, and what to do. */
const needs = (what: string, todo: string) => (issue: { readonly input?: unknown }) =>
  `${what}; ${shown(issue.input)}. ${todo}`;

const day = z.iso.date();
const week = z.string().regex(/^\d{4}-W\d{2}$/);
const slug = z.string().regex(/^[a-z0-9][a-z0-9-]{0,63}$/);
const amount = z.number();

const named = z
  .object({ id: slug, name: z.string() })
  .meta({ id: 'ItemName', description: 'An item by its id and by the name the household gave it.' });

const lasts = z
  .object({
    words: z.string().describe('How long it lasts and when more comes, as the pages say it.'),
    runsOut: week
      .nullable()
      .describe(
        'ISO week by whose end it is as likely as not that none is left; null: not in the year ahead, or not known.',
      ),
    runsOutEarly: week.nullable().describe('ISO week by whose end none is left in one year of ten.'),
    isShort: z.boolean().describe('It likely runs out before more comes.'),
    moreFrom: week.nullable().describe('ISO week in which more can be had; null: not known.'),
  })
  .meta({ id: 'Outlook', description: 'How long what stands of an item lasts.' });

const itemFields = {
  id: slug,
  name: z.string(),
  family: z.enum(family.options).describe('Kind of food it is shelved with.'),
  keeping: z.enum(['canned', 'frozen', 'dried', 'fermented', 'cellar', 'refrigerated', 'bought']),
  unit: z.enum(['jar', 'bag', 'lb', 'bin', 'each']).describe('What it is counted in.'),
  jar: z
    .string()
    .nullable()
    .describe('The jar one unit means, like `pint/wide`; null for what is in no jars.'),
  unitsLeft: amount.describe('Units left, in the item’s own jar; what is set aside does not count.'),
  left: z.string().describe('The same in words, `14 pints`.'),
  bestUntil: day.nullable().describe('Best quality of the first of its batches to lose it ends on this day.'),
  lasts,
};
const shelfItem = z
  .object(itemFields)
  .meta({ id: 'ShelfItem', description: 'An item of the shelf, with what is left of it.' });

const batch = z
  .object({
    id: slug,
    code: z.string().describe('What is written on its label.'),
    jar: z.string().nullable(),
    unitsLeft: amount.describe('In jars of the batch’s own kind, or in the item’s unit.'),
    madeOn: day,
    readyFrom: day.describe('Not good to eat before.'),
    bestUntil: day.describe('Best quality until; says nothing about safety.'),
    place: z.string().nullable().describe('Where it stands.'),
    setAside: z.string().nullable().describe('Why it must not be eaten; null where nothing is against it.'),
  })
  .meta({ id: 'Batch', description: 'Jars of one day, with what is left of them.' });

const asOf = day.describe('Today where the household lives.');

export const shelfAnswer = z
  .object({ asOf, household: z.string(), items: z.array(shelfItem) })
  .meta({ id: 'Shelf', description: 'Every item kept, by the order of the shelf.' });

export const itemAnswer = z
  .object({ asOf, ...itemFields, batches: z.array(batch).describe('First to be eaten first.') })
  .meta({ id: 'Item', description: 'An item with its batches.' });

export const eatFirstAnswer = z
  .object({ asOf, batches: z.array(z.object({ item: named, ...batch.shape })) })
  .meta({
    id: 'EatFirst',
    description: 'Batches whose best quality is near its end or past, the earliest first.',
  });

const work = z
  .object({
    on: day,
    minutes: z.number().int().describe('At the stove that day, of all who are there together.'),
    who: z.array(z.string()).describe('Who is there, by name; empty where nobody was named.'),
    makes: z.array(
      z.object({
        recipe: slug,
        item: named.nullable(),
        batches: z.number().int(),
        comes: z.string().describe('What comes of it, `12 to 14 quarts`.'),
        minutes: z.number().int(),
      }),
    ),
  })
  .meta({ id: 'KitchenDay', description: 'A day of this week on which something is put up.' });

const errand = z
  .object({
    by: day.describe('The day by which it has to be there.'),
    lines: z.array(
      z.object({
        what: z.string(),
        quantity: z.string(),
        where: z.string().describe('Where it comes from, and when that is told, until when.'),
        cost: z.string().nullable().describe('In the household’s currency; null for what costs nothing.'),
      }),
    ),
  })
  .meta({ id: 'Errand', description: 'What to pick and buy by one day.' });

export const weekAnswer = z
  .object({
    asOf,
    week: week.describe('ISO key of the week; its days are the household’s own.'),
    begins: day,
    ends: day.describe('Its last day.'),
    plan: z.enum(['none', 'current', 'out of date']).describe('How the plan stands that this is of.'),
    summary: z.string(),
    work: z.array(work),
    shopping: z.array(errand),
  })
  .meta({ id: 'Week', description: 'This week: what is put up on which day, what to fetch by which.' });

export const noticesAnswer = z
  .object({
    asOf,
    notices: z.array(
      z
        .object({
          id: z.string(),
          kind: z.string().describe('What it is about, in a word or two: `Eat soon`.'),
          words: z.string(),
          dueOn: day.nullable(),
        })
        .meta({ id: 'Notice', description: 'Something to know, as the pages tell it.' }),
    ),
  })
  .meta({ id: 'Notices', description: 'What needs attention now; what was put off is left out.' });

const outcomes = takeOutcomes.filter((outcome) => outcome !== 'took-one');
/** With the thing’s name beside it, it still fits where the shelf keeps who took. */
const lettersOfWho = letters.person - letters.thing - ' ()'.length;

const itemSent = needs(
  'The item is named by its id, small letters, digits and hyphens',
  'Read the ids from the shelf.',
);
export const takeSent = z
  .strictObject(
    {
      item: z.string({ error: itemSent }).regex(/^[a-z0-9][a-z0-9-]{0,63}$/, { error: itemSent }),
      batch: z
        .string({ error: needs('A batch is named by its id', 'Read it from the item, or leave it out.') })
        .regex(/^[a-z0-9][a-z0-9-]{0,63}$/, {
          error: needs('A batch is named by its id', 'Read it from the item, or leave it out.'),
        })
        .optional()
        .describe('Which batch; left out, the first to lose its best quality is taken.'),
      units: z
        .number({
          error: needs(
            `How many is a number from ${bounds.unitsTaken.from} to ${bounds.unitsTaken.to}`,
            'Send a number, or leave it out for one.',
          ),
        })
        .min(bounds.unitsTaken.from, {
          error: needs(`How many is at least ${bounds.unitsTaken.from}`, 'Send more.'),
        })
        .max(bounds.unitsTaken.to, {
          error: needs(`How many is at most ${bounds.unitsTaken.to}`, 'Send fewer, several times.'),
        })
        .default(1)
        .describe('How many, in the unit the batch is counted in.'),
      outcome: z
        .enum(outcomes, {
          error: needs(`What became of it is one of ${outcomes.join(', ')}`, 'Send one of them.'),
        })
        .default('taken')
        .describe('What became of it; `taken` is eaten at home, and that alone teaches how much is eaten.'),
      on: z.iso
        .date({
          error: needs('The day is written like 2026-08-17', 'Send such a day, or leave it out for today.'),
          abort: true,
        })
        .refine((text) => calendarDate.safeParse(text).success, {
          error: needs('The day is one that a shelf can know', 'Send another, or leave it out for today.'),
        })
        .optional()
        .describe('The day on which it was taken; left out, today.'),
      forPromise: z
        .boolean({ error: needs('Whether it is for the promise is true or false', 'Send one of the two.') })
        .default(false)
        .describe('It is for what was promised to somebody, which is kept back otherwise.'),
      who: z
        .string({ error: needs('Who took it is a name', 'Send a name, or leave it out.') })
        .trim()
        .min(1, { error: needs('Who took it is a name', 'Send a name, or leave it out.') })
        .max(lettersOfWho, {
          error: needs(`Who took it has room for ${lettersOfWho} letters`, 'Shorten it.'),
        })
        .regex(/^\P{C}+$/u, {
          error: needs('Who took it is one line of letters', 'Take the other signs out.'),
        })
        .optional()
        .describe('Who took it, if the household wants to know; the thing’s own name stands beside it.'),
    },
    {
      error: (issue) =>
        issue.code === 'unrecognized_keys'
          ? `${issue.keys.map((key: string) => `“${key.slice(0, 40)}”`).join(', ')} is no field of a take. Send item, batch, units, outcome, on, forPromise and who alone.`
          : `A take is a JSON object with at least an item; ${shown(issue.input)}. Send {"item": "…"}.`,
    },
  )
  .meta({ id: 'TakeSent', description: 'A unit leaves the shelf.' });

export const takeAnswer = z
  .object({
    take: z
      .string()
      .nullable()
      .describe('Undo names this; null where the shelf had none and all of it is asked about.'),
    item: named,
    from: z.array(
      z.object({ batch: slug, code: z.string(), jar: z.string().nullable(), bestUntil: day, units: amount }),
    ),
    notOnShelf: amount.describe(
      'Of what was taken, so much the book does not have: kept as a question on the shelf’s page.',
    ),
    unitsLeft: amount.describe('Units left of the item now.'),
  })
  .meta({ id: 'Take', description: 'What was taken, and from which batches.' });

export const undoneAnswer = z
  .object({ undone: z.string(), item: named, units: amount, unitsLeft: amount })
  .meta({ id: 'Undone', description: 'What came back onto the shelf.' });

export const problemShape = z
  .object({
    type: z.string(),
    title: z.string().describe('What the status means.'),
    status: z.number().int(),
    detail: z.string().describe('What we need, what was sent, and what to do.'),
    code: z.string().describe('The same for a program.'),
    errors: z
      .array(z.object({ field: z.string(), detail: z.string() }))
      .optional()
      .describe('Every field that has to be mended.'),
  })
  .meta({ id: 'Problem', description: 'Why nothing was done (RFC 9457).' });
