import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import type { Outcome, Problem } from '../../../shared/problems.ts';
import { whileTheSame } from '../../../shared/remembering.ts';
import { typedValues } from '../../../shared/schemas/form-fields.ts';
import type { ReferenceTables } from '../../../shared/schemas/reference/tables.ts';
import { type Glut, glutWays, type WalkOf } from '../../../src/planning/glut/glut.ts';
import { type GlutAnswer, glutAnswers } from '../../../src/planning/glut/glut-answers.ts';
import { type GlutAtHand, glutAtHand } from '../../../src/planning/glut/glut-at-hand.ts';
import { glutDifference } from '../../../src/planning/glut/glut-difference.ts';
import { cropsHere, type GlutHere, glutHere } from '../../../src/planning/glut/glut-here.ts';
import { tradeMeasuresOf } from '../../../src/preserving/foods/trade-measures.ts';
import type { GlutInPlanProps } from '../../../views/pages/glut/glut-in-plan.tsx';
import { GlutPage } from '../../../views/pages/glut/glut-page.tsx';
import { formatLongDay, formatQuantity } from '../../../views/words/format.ts';
import { insideSentence } from '../../../views/words/sentences.ts';
import { glutInPlan } from '../../queries/year/glut-uses.ts';
import { newestPlan, planById } from '../../queries/year/plans.ts';
import { undoGlut, useGlut } from '../../records/year/use-glut.ts';
import { supplyGuessFor, vesselGuesses } from '../../reference/first-year.ts';
import { aboutWords, withoutPecks } from '../../words/buying/produce-words.ts';
import { presentPlanStatus } from '../../words/plan-status.ts';
import { presentCautions } from '../../words/process-words.ts';
import { yearOfRequest } from '../../year/year-of-request.ts';
import type { YearPicture } from '../../year/year-picture.ts';
import { fieldsFrom } from '../shared/answer-form.ts';
import { planNow } from '../shared/plan-now.ts';
import { recordingOf, seeOther, sentText, statusOf } from '../shared/posting.ts';
import { produceUnitChoices, weightUnit } from '../shared/produce/units.ts';
import { answerKey, makeWords, noteOn, presentAnswer, waysToFreeze } from './present-answers.ts';
import { presentGlutChange, presentWay } from './present-glut.ts';

const glut: FastifyPluginAsync = async (app) => {
  app.get('/glut', async (request, reply) => {
    const typed = typedValues(request.query);
    const picture = await yearOfRequest(request);
    const asked =
      typed.crop === undefined && typed.amount === undefined ? null : readTyped(request, picture, typed);
    return sendGlut(request, reply, { picture, typed, asked, failed: [] });
  });

  app.post('/glut/use', async (request, reply) => {
    const typed = typedValues(request.body);
    const picture = await yearOfRequest(request);
    const asked = readTyped(request, picture, typed);
    if (!asked.ok) return sendGlut(request, reply, { picture, typed, asked, failed: [] });
    const { atHand, answers } = answersTo(request, picture, asked.value);
    const chosen = answers.find((answer) => answerKey(answer) === sentText(request, 'answer'));
    if (chosen === undefined || atHand === null)
      return sendGlut(request, reply, { picture, typed, asked, failed: [changedSince] });
    const { crop, lb } = asked.value.glut;
    const used = await useGlut(recordingOf(request), {
      crop,
      lb,
      useBy: atHand.useBy,
      makes: chosen.makes.map(({ recipe, week, batches }) => ({ recipe, week, batches })),
    });
    if (!used.ok) return sendGlut(request, reply, { picture, typed, asked, failed: used.problems });
    await app.planJob?.start(request.household.id);
    return seeOther(reply, '/glut#glut-plan');
  });

  app.post('/glut/undone', async (request, reply) => {
    const { planJob, household } = { planJob: app.planJob, household: request.household };
    await planJob?.cancel(household.id);
    await planJob?.settled(household.id);
    const undone = await undoGlut(recordingOf(request), sentText(request, 'id'));
    if (!undone.ok)
      return sendGlut(request, reply, {
        picture: await yearOfRequest(request),
        typed: {},
        asked: null,
        failed: undone.problems,
      });
    if (!undone.value.isPlanBack) await planJob?.start(household.id);
    return seeOther(reply, undone.value.isPlanBack ? '/glut?undone=back' : '/glut?undone=again');
  });
};

export default glut;

const changedSince: Problem = {
  code: 'answer-gone',
  path: [],
  message: 'Something has changed since, and this answer with it. Choose from the answers as they are now.',
};

type Typed = Readonly<Record<string, string>>;

const readTyped = (request: FastifyRequest, { loaded }: YearPicture, typed: Typed): Outcome<GlutHere> =>
  glutHere(loaded, typed, request.server.reference, supplyGuessFor, weightUnit(request.reading));

/** `84 lb of plums`, `84 lb of plums, about 1½ bushels,` */
function glutWords({ server, reading }: FastifyRequest, { crop, name, lb }: GlutHere['glut']): string {
  const about = aboutWords(lb, withoutPecks(tradeMeasuresOf(crop, server.reference)), reading);
  return `${formatQuantity(lb, 'lb', reading)} of ${insideSentence(name)}${about === null ? '' : `, ${about},`}`;
}

const walkOfPicture =
  ({ itemYearById }: YearPicture): WalkOf =>
  (item) =>
    itemYearById.get(item)?.walk ?? null;

/** The mixes to choose from; none of a crop that nothing here is made of. */
function answersTo(
  request: FastifyRequest,
  picture: YearPicture,
  { glut: { crop, lb, isKept } }: GlutHere,
): { readonly atHand: Waiting | null; readonly answers: readonly GlutAnswer[] } {
  if (!isKept) return { atHand: null, answers: [] };
  return lastAnswers({ picture, crop, lb, reference: request.server.reference });
}

/** How long a glut waits. */
type Waiting = Pick<GlutAtHand, 'useBy' | 'usuallyKeepsUntil'>;

interface MixesAsked extends Glut {
  readonly picture: YearPicture;
  readonly reference: ReferenceTables;
}

// Who looks at the answers uses one of them next.
const lastAnswers = whileTheSame('picture', ({ picture, crop, lb, reference }: MixesAsked) => {
  const { loaded, weeks, useBy, usuallyKeepsUntil } = glutAtHand(
    picture.loaded,
    { crop, lb },
    reference,
    vesselGuesses(),
  );
  return {
    atHand: { useBy, usuallyKeepsUntil },
    answers: glutAnswers(loaded.year, { crop, lb }, { weeks, walkOf: walkOfPicture(picture) }),
  };
});

interface Sent {
  readonly picture: YearPicture;
  readonly typed: Typed;
  readonly asked: Outcome<GlutHere> | null;
  readonly failed: readonly Problem[];
}

async function sendGlut(request: FastifyRequest, reply: FastifyReply, sent: Sent): Promise<FastifyReply> {
  const { asked, typed, picture, failed } = sent;
  const walkOf = walkOfPicture(picture);
  const { reading } = request;
  const here = asked?.ok ? asked.value : null;
  const ways = here === null ? [] : glutWays(here.loaded.year, here.glut, walkOf);
  const { atHand, answers } =
    here === null ? { atHand: null, answers: [] } : answersTo(request, picture, here);
  const message = failed[0]?.message;
  return reply.page(
    GlutPage,
    {
      frame: await reply.frame(
        message === undefined ? undoneMessage(typed.undone) : { tone: 'problem', text: message },
      ),
      form: fieldsFrom({
        formId: 'glut',
        typed,
        problems: asked === null || asked.ok ? [] : asked.problems,
      })('glut', { crop: '', amount: '', unit: weightUnit(reading) }),
      units: produceUnitChoices,
      crops: cropsHere(picture.loaded, request.server.reference.harvestWindows).map(({ name }) => name),
      title: here === null ? null : `${glutWords(request, here.glut)} can become`,
      ways:
        here === null
          ? []
          : ways.map((way) =>
              presentWay(
                way,
                here.loaded,
                { walk: walkOf(way.item), hasPlan: picture.plan !== null },
                reading,
              ),
            ),
      answers:
        here === null
          ? []
          : answers.map((answer) =>
              presentAnswer(answer, here.glut.crop, picture.loaded, reading, request.server.reference),
            ),
      toFreeze: here === null ? [] : waysToFreeze(here.glut.crop, picture.loaded, request.server.reference),
      note: atHand === null || ways.length === 0 ? null : noteOn(answers, atHand, reading),
      isKept: here?.glut.isKept ?? true,
      cautions: presentCautions([]),
      keys: request.server.planJob === null ? null : () => reply.formKeys(),
      inPlan: await presentInPlan(request, reply, picture),
    },
    asked !== null && !asked.ok ? 422 : failed.length > 0 ? statusOf(failed) : 200,
  );
}

const undoneMessage = (undone: string | undefined) =>
  undone === 'back'
    ? ({ tone: 'done', text: 'Undone. The plan is the one from before.' } as const)
    : undone === 'again'
      ? ({
          tone: 'done',
          text: 'Undone. Other things have changed since, so the year is planned again without it.',
        } as const)
      : null;

async function presentInPlan(
  request: FastifyRequest,
  reply: FastifyReply,
  { loaded }: YearPicture,
): Promise<GlutInPlanProps | null> {
  const { db, reference } = request.server;
  const { household, reading, today } = request;
  const own = await glutInPlan(db, household.id, today);
  if (own === null) return null;
  const [before, newest] = await Promise.all([
    own.planBefore === null ? null : planById(db, household.id, own.planBefore),
    newestPlan(db, household.id),
  ]);
  const weeks = new Set(newest?.plan.weeks.map(({ week }) => week));
  const change =
    before === null || newest === null || newest.id === own.planBefore
      ? null
      : presentGlutChange(
          glutDifference(newest.year, own, {
            before: { ...before, weeks: before.weeks.filter(({ week }) => weeks.has(week)) },
            after: newest.plan,
          }),
          loaded,
          reading,
        );
  const name = cropsHere(loaded, reference.harvestWindows).find(({ crop }) => crop === own.crop)?.name;
  return {
    id: own.id,
    what: `${formatQuantity(own.lb, 'lb', reading)} of ${insideSentence(name ?? own.crop)}`,
    keeps: `To be used by ${formatLongDay(own.useBy, reading)}.`,
    makes: own.makes.map((make) => ({
      key: `${make.recipe} ${make.week}`,
      words: makeWords(make, loaded, reading),
    })),
    change: change === null ? null : { lines: [...change.moved, ...change.overYear], sum: change.sum },
    plan: presentPlanStatus(await planNow(request), reply.formKeys(), '/glut'),
    keys: reply.formKeys(),
  };
}
