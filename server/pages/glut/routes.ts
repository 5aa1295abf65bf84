import type { FastifyPluginAsync, FastifyReply, FastifyRequest } from 'fastify';
import type { Outcome } from '../../../shared/problems.ts';
import { typedValues } from '../../../shared/schemas/form-fields.ts';
import { glutWays, type WalkOf } from '../../../src/planning/glut/glut.ts';
import {
  cropsHere,
  type GlutHere,
  glutHere,
  type NamedGlut,
  planWithGlut,
} from '../../../src/planning/glut/glut-here.ts';
import { GlutPage, type GlutPageProps, GlutPlanned } from '../../../views/pages/glut/glut-page.tsx';
import { noProblems } from '../../../views/parts/form.tsx';
import { formatQuantity } from '../../../views/words/format.ts';
import { insideSentence } from '../../../views/words/sentences.ts';
import { supplyGuessFor } from '../../reference/first-year.ts';
import { fieldProblems } from '../../words/field-problems.ts';
import { presentCautions } from '../../words/process-words.ts';
import { type YearPicture, yearPicture } from '../../year/year-picture.ts';
import { askerLeft } from '../shared/asker-left.ts';
import { produceUnitChoices } from '../shared/produce-units.ts';
import { wantsPart } from '../shared/wants-part.ts';
import { presentGlutChange, presentWay } from './present-glut.ts';

const glut: FastifyPluginAsync = async (app) => {
  app.get('/glut', async (request, reply) => {
    const typed = typedValues(request.query);
    const picture = await pictureOf(request);
    const asked =
      typed.crop === undefined && typed.amount === undefined ? null : readTyped(request, picture, typed);
    const plan = asked?.ok && !asked.value.glut.isKept ? notKept : toAsk(request, reply);
    return sendGlut(request, reply, { picture, typed, asked, plan });
  });

  app.post('/glut/plan', async (request, reply) => {
    const typed = typedValues(request.body);
    const picture = await pictureOf(request);
    const asked = readTyped(request, picture, typed);
    const plan = asked.ok ? await planOf(request, reply, picture, asked.value.glut) : noPlanner;
    return wantsPart(request) && asked.ok
      ? reply.part(GlutPlanned, { plan, values: valuesOf(request, typed) })
      : sendGlut(request, reply, { picture, typed, asked, plan });
  });
};

export default glut;

const noPlanner: GlutPageProps['plan'] = { state: 'none here' };
const notKept: GlutPageProps['plan'] = { state: 'not kept' };

const pictureOf = (request: FastifyRequest): Promise<YearPicture> =>
  yearPicture(request.server.db, request.household.id, request.today, request.server.reference);

const toAsk = (request: FastifyRequest, reply: FastifyReply): GlutPageProps['plan'] =>
  request.server.planJob === null ? noPlanner : { state: 'to ask', keys: reply.formKeys() };

type Typed = Readonly<Record<string, string>>;

const readTyped = (request: FastifyRequest, { loaded }: YearPicture, typed: Typed): Outcome<GlutHere> =>
  glutHere(loaded, typed, request.server.reference, supplyGuessFor);

const valuesOf = ({ reading }: FastifyRequest, typed: Typed): GlutPageProps['values'] => ({
  crop: typed.crop ?? '',
  amount: typed.amount ?? '',
  unit: typed.unit ?? (reading.units === 'metric' ? 'kg' : 'lb'),
});

async function planOf(
  request: FastifyRequest,
  reply: FastifyReply,
  { loaded, plan }: YearPicture,
  asked: NamedGlut,
): Promise<GlutPageProps['plan']> {
  const { planJob } = request.server;
  if (planJob === null) return noPlanner;
  if (!asked.isKept) return notKept;
  const planned = await planJob.ask(
    request.household.id,
    ({ planYear }) => planWithGlut(loaded, plan, asked, planYear),
    askerLeft(reply),
  );
  return planned.outcome === 'planned'
    ? { state: 'answered', change: presentGlutChange(planned.difference, loaded, request.reading) }
    : { state: 'failed', keys: reply.formKeys() };
}

interface Sent {
  readonly picture: YearPicture;
  readonly typed: Typed;
  readonly asked: Outcome<GlutHere> | null;
  readonly plan: GlutPageProps['plan'];
}

async function sendGlut(request: FastifyRequest, reply: FastifyReply, sent: Sent): Promise<FastifyReply> {
  const { asked, typed, plan } = sent;
  const { loaded, plan: kept, itemYearById } = sent.picture;
  const walkOf: WalkOf = (item) => itemYearById.get(item)?.walk ?? null;
  const { reading } = request;
  const here = asked?.ok ? asked.value : null;
  return reply.page(
    GlutPage,
    {
      frame: await reply.frame(),
      values: valuesOf(request, typed),
      problems:
        asked !== null && !asked.ok ? fieldProblems(asked.problems, ['crop', 'amount', 'unit']) : noProblems,
      units: produceUnitChoices,
      crops: cropsHere(loaded, request.server.reference.harvestWindows).map(({ name }) => name),
      title:
        here === null
          ? null
          : `${formatQuantity(here.glut.lb, 'lb', reading)} of ${insideSentence(here.glut.name)} can become`,
      ways:
        here === null
          ? []
          : glutWays(here.loaded.year, here.glut, walkOf).map((way) =>
              presentWay(way, here.loaded, { walk: walkOf(way.item), hasPlan: kept !== null }, reading),
            ),
      cautions: presentCautions([]),
      plan,
    },
    asked !== null && !asked.ok ? 422 : 200,
  );
}
