import type { FastifyInstance } from 'fastify';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildApp } from '../../../server/app.ts';
import { type Database, openDatabase } from '../../../server/database/database.ts';
import { makeDemoHousehold } from '../../../server/demo/make-demo.ts';
import { loadReferenceTables } from '../../../server/reference/load-reference.ts';
import { asDate } from '../../../shared/week.ts';
import { type AskedField, type AskedForm, askedForms } from '../../builders/asked-fields.ts';
import { keepPlanOfNothing } from '../../builders/plan-of-nothing.ts';
import { filled, twoHouseholds } from '../../builders/two-households.ts';
import { type Answer, Visitor, wordsOf } from '../../builders/visitor.ts';

// Every form of every page, filled in badly everywhere at once: each field says for itself what is wrong with it, by the label
// that is printed beside it; and what is told of a field that is left open alone is told of it when all are left open. A choice
// not made says “Choose a jar.”

/** What no field of its kind takes. */
const unfit: Readonly<Record<Exclude<AskedField['kind'], 'choice'>, string>> = {
  number: 'a few',
  date: '2026-02-30',
  minute: '2026-02-30T25:00',
  text: 'a'.repeat(5_000),
  secret: '',
};

/** What has to be chosen so that a field counts; elsewhere the page's own choices stand. */
const chosen: readonly (readonly [route: RegExp, choices: Readonly<Record<string, string>>])[] = [
  [/^\/shelf\/[^/]+\/takes$/, { outcome: 'given-away', day: 'other' }],
  [/^\/harvest\/[^/]+\/first-picking$/, { day: 'other' }],
  [/^\/notices\/[^/]+$/, { answer: 'until' }],
  [/^\/buying\/lines$/, { answer: 'bought' }],
  [/^\/shelf\/lots$/, { origin: 'bought' }],
  [/^\/batches\/[^/]+\/standing$/, { standing: 'set-aside' }],
  [/^\/kitchen\/pins$/, { decision: 'pinned' }],
];

const unfitOf = ({ kind }: AskedField): string | null => (kind === 'choice' ? null : unfit[kind]);

/** Fields that are read only for another answer of their form, and those that no text is unfit for. */
const notRead: readonly (readonly [route: RegExp, name: string])[] = [
  [/^\/shelf\/lots$/, 'left'],
  [/^\/shelf\/lots$/, 'readyFrom'],
];

/** “Worked” out of the names and hidden values of a form: the same form of another item, batch or day is not asked again. */
const kindOf = ({ action, fields }: AskedForm, posts: readonly RegExp[]): string =>
  `${posts.find((route) => route.test(action))?.source ?? action} ${fields
    .map(({ name }) => name.replace(/^(units|batches|eats|lb|lot)-.*/, '$1'))
    .join()}`;

interface Asker {
  /** What is told of a field alone is asked too, by a form sent for each. */
  readonly alone: boolean;
  readonly visitor: Visitor;
  readonly urls: readonly string[];
  readonly posts: readonly RegExp[];
}

const doors = /sign-out|removal|deletion|\/people\/self\/(?:device|factor)|\/search|\/shelf\/waiting/;

class Filling {
  readonly #asker: Asker;
  readonly #page: Answer;
  readonly #form: AskedForm;
  constructor(asker: Asker, page: Answer, form: AskedForm) {
    this.#asker = asker;
    this.#page = page;
    this.#form = form;
  }

  /** Sends the form as it stands on the page, with what `typed` says of a field in its place. */
  async send(
    typed: (field: AskedField) => string | null,
  ): Promise<{ status: number; said: string; by: ReadonlyMap<string, string> }> {
    const { action, fields, values } = this.#form;
    const choices = chosen.find(([route]) => route.test(action))?.[1] ?? {};
    const body = new Map<string, string>(values);
    for (const field of fields) {
      const [first = ''] = field.options;
      const own = choices[field.name] ?? typed(field) ?? body.get(field.name) ?? first;
      body.set(field.name, own);
    }
    for (const [name, value] of Object.entries(choices)) if (!body.has(name)) body.set(name, value);
    const sent = Object.fromEntries(body);
    const answer =
      this.#form.method === 'get'
        ? await this.#asker.visitor.open(`${action.split('#')[0]}?${new URLSearchParams(sent)}`)
        : await this.#asker.visitor.post(this.#page, action, sent);
    const back = askedForms(answer.body).find(
      (one) => one.action === action && one.fields.some(({ name }) => body.has(name)),
    );
    return {
      status: answer.status,
      said: wordsOf(/<[^>]*role="(?:alert|status)"[\s\S]*?<\/(?:p|div)>/.exec(answer.body)?.[0] ?? ''),
      by: new Map(back?.fields.map(({ name, problem }) => [name, problem])),
    };
  }
}

/** What a message calls the field it stands beside; null where it does without a name. */
const subjectOf = (message: string): string | null =>
  /^(.+?) (?:cannot be|is empty|has room for|is one line|can have up to|must be)/.exec(message)?.[1] ?? null;

const isCalled = (subject: string | null, label: string): boolean =>
  subject === null || subject === 'The number' || subject.toLowerCase() === label.toLowerCase();

async function wrongIn(asker: Asker): Promise<{ forms: number; wrong: readonly string[] }> {
  const wrong: string[] = [];
  const seen = new Set<string>();
  for (const url of asker.urls) {
    const page = await asker.visitor.open(url);
    if (page.status !== 200) continue;
    for (const form of askedForms(page.body)) {
      const kind = kindOf(form, asker.posts);
      if (form.fields.length === 0 || doors.test(form.action) || seen.has(kind)) continue;
      seen.add(kind);
      const at = `${url}: ${form.action}`;
      const filling = new Filling(asker, page, form);
      const typed = form.fields.filter(
        ({ name, kind: of }) =>
          of !== 'choice' && !notRead.some(([route, field]) => route.test(form.action) && field === name),
      );
      if (typed.length > 0) {
        const all = await filling.send(unfitOf);
        if (all.status === 404) continue;
        if (all.status !== 422) wrong.push(`${at}: answered ${all.status} to what no field takes`);
        for (const { name, label } of typed) {
          const message = all.by.get(name) ?? '';
          if (message === '' && !all.said.includes(label) && typed.length > 1)
            wrong.push(`${at}: nothing is said of “${label}” (${name})`);
          if (!isCalled(subjectOf(message), label)) wrong.push(`${at}: “${label}” is called so: ${message}`);
        }
      }
      const open = await filling.send(() => '');
      for (const { name, label, kind: of } of form.fields) {
        const company = open.by.get(name) ?? '';
        const alone =
          asker.alone && company === ''
            ? await filling.send((field) => (field.name === name ? '' : null))
            : null;
        if (alone?.status === 422 && (alone.by.get(name) ?? '') !== '')
          wrong.push(`${at}: “${label}” is told alone and not in company: ${alone.by.get(name)}`);
        if (!isCalled(subjectOf(company), label)) wrong.push(`${at}: “${label}” is called so: ${company}`);
        if (of === 'choice' && company !== '' && !/\bChoose\b/.test(company))
          wrong.push(`${at}: a choice not made says: ${company}`);
      }
    }
  }
  return { forms: seen.size, wrong };
}

/** What a field may well take by its form, and a record may still refuse: days long past and far ahead, parts, many, names in use. */
const triedOf = ({ kind, options }: AskedField, names: readonly string[]): readonly string[] => {
  switch (kind) {
    case 'number':
      return ['1.5', '0', '900'];
    case 'date':
      return ['2021-01-02', '2028-01-02'];
    case 'minute':
      return ['2026-08-01T10:00', '2028-01-02T10:00'];
    case 'text':
      return names;
    case 'choice':
      return options.slice(0, 4);
    case 'secret':
      return [];
  }
};

/** What the record may say yes to, where the page itself proposes nothing. */
const plainOf: Readonly<Record<AskedField['kind'], string>> = {
  number: '1',
  date: '2026-08-12',
  minute: '2026-08-12T10:00',
  text: 'Something new',
  secret: 'a long and quiet passphrase',
  choice: '',
};

/** Rules across two fields: what is told beside the first waits until the second can be read. */
const across: readonly (readonly [route: RegExp, told: string, looksAt: readonly string[]])[] = [
  [/^\/kitchen\/(?:session-pauses|away|school-holidays)$/, 'lastOn', ['fromOn']],
  [/^\/kitchen\/(?:session-pauses|away|school-holidays)$/, 'fromOn', ['lastOn']],
  [/^\/harvest\/[^/]+\/windows\/\d+$/, 'lastOn', ['beginsOn']],
  [/^\/harvest\/[^/]+\/windows\/\d+$/, 'mostActiveFrom', ['beginsOn', 'lastOn', 'mostActiveLastOn']],
  [/^\/harvest\/[^/]+\/windows\/\d+$/, 'mostActiveLastOn', ['mostActiveFrom']],
  [/^\/canning-day\/.*\/results\//, 'otherKind', ['otherUnits']],
  [/^\/labels\/grid$/, 'widthMm', ['columns', 'leftMm', 'acrossMm']],
  [/^\/labels\/grid$/, 'heightMm', ['rows', 'topMm', 'downMm']],
  [/^\/items$/, 'crop', ['lb']],
  [/^\/items$/, 'material', ['materialLb']],
  [/^\/items\/[^/]+\/recipes\/[^/]+\/left-overs$/, 'leaves', ['leavesAmount']],
  [/^\/items\/[^/]+\/recipes\/[^/]+\/left-overs$/, 'takes', ['takesAmount', 'leaves']],
  [/^\/power-cut(?:#|$)/, 'endedAt', ['startedAt']],
];

/** What a record holds against a form beside its schema is told along with what cannot be read, and all of it at once. */
async function toldOnlyAlone(
  asker: Asker,
  names: readonly string[],
): Promise<{ held: number; wrong: string[] }> {
  const wrong: string[] = [];
  const seen = new Set<string>();
  let held = 0;
  for (const url of asker.urls) {
    const first = await asker.visitor.open(url);
    if (first.status !== 200) continue;
    for (const { action } of askedForms(first.body)) {
      const page = await asker.visitor.open(url);
      const form = askedForms(page.body).find((one) => one.action === action && one.fields.length > 0);
      if (form === undefined) continue;
      const kind = kindOf(form, asker.posts);
      if (form.fields.length < 2 || doors.test(action) || proof.test(action) || seen.has(kind)) continue;
      seen.add(kind);
      const filling = new Filling(asker, page, form);
      const own = new Map(form.values);
      const usual = (field: AskedField) => (own.get(field.name) ? null : plainOf[field.kind]);
      const looksAt = (told: string) =>
        across.flatMap(([route, name, others]) => (route.test(action) && name === told ? others : []));
      const typed = form.fields.flatMap(({ name, kind: of }) =>
        of === 'choice' ||
        of === 'secret' ||
        notRead.some(([route, field]) => route.test(action) && field === name)
          ? []
          : [name],
      );
      const refusedAlone = new Map<string, readonly [value: string, message: string]>();
      for (const field of form.fields) {
        for (const value of triedOf(field, names)) {
          const alone = await filling.send((one) => (one.name === field.name ? value : usual(one)));
          const message = alone.by.get(field.name) ?? '';
          if (alone.status !== 422 || message === '') continue;
          held += 1;
          refusedAlone.set(field.name, [value, message]);
          const company = await filling.send((one) =>
            one.name !== field.name && typed.includes(one.name) && !looksAt(field.name).includes(one.name)
              ? unfitOf(one)
              : one.name === field.name
                ? value
                : usual(one),
          );
          if (!(company.by.get(field.name) ?? '').includes(message))
            wrong.push(
              `${url}: ${action}: of “${field.label}” (${field.name}) as “${value}” this is told alone and not in company: ${message}`,
            );
        }
      }
      const all = await filling.send((one) => refusedAlone.get(one.name)?.[0] ?? usual(one));
      for (const [name, [value, message]] of refusedAlone)
        if (
          all.status === 422 &&
          (all.by.get(name) ?? '') === '' &&
          !looksAt(name).some((one) => refusedAlone.has(one))
        )
          wrong.push(`${url}: ${action}: ${name} as “${value}” is not told beside all others: ${message}`);
    }
  }
  return { held, wrong };
}

/** Where somebody first proves who they are, nothing more is told to whoever does not. */
const proof = /^\/(?:sign-in|people\/self|invitation|reset)/;

const postsOf = (app: FastifyInstance): readonly RegExp[] =>
  app.servedRoutes.map(
    ({ url }) => new RegExp(`^${url.replaceAll(/:\w+/g, '[^/]+').replaceAll('*', '.*')}$`),
  );

describe('every form says all that is wrong with it at once, by its own labels', () => {
  test('of a household with one of everything', async () => {
    const both = await twoHouseholds();
    const urls = both.app.servedRoutes.flatMap(({ method, url }) =>
      method === 'GET' && !url.includes('*') ? [filled(url, (kind) => both.medlar[kind] ?? 'none')] : [],
    );
    const visitor = new Visitor(both.app, { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' });

    const { forms, wrong } = await wrongIn({ visitor, urls, posts: postsOf(both.app), alone: true });

    expect(wrong).toEqual([]);
    expect(forms).toBeGreaterThan(45);
    await both.close();
  });

  test('and what its record holds against it, along with what cannot be read', async () => {
    const both = await twoHouseholds();
    const urls = both.app.servedRoutes.flatMap(({ method, url }) =>
      method === 'GET' && !url.includes('*') ? [filled(url, (kind) => both.medlar[kind] ?? 'none')] : [],
    );
    const visitor = new Visitor(both.app, { 'sign-in': both.tokenOf.get('medlar-owner') ?? '' });
    const named = [
      ...(await both.db.selectFrom('place').select('name').execute()),
      ...(await both.db.selectFrom('item').select('name').execute()),
    ].map(({ name }) => name);

    const { held, wrong } = await toldOnlyAlone(
      {
        visitor,
        urls: [...urls, '/items/new?kind=staple', '/items/new?kind=uncanned', '/items/new?kind=own'],
        posts: postsOf(both.app),
        alone: true,
      },
      [...new Set(named)].slice(0, 6),
    );

    expect(wrong).toEqual([]);
    expect(held).toBeGreaterThan(60);
    await both.close();
  });

  describe('of the demo household', () => {
    let db: Database;
    let app: FastifyInstance;
    beforeAll(async () => {
      db = await openDatabase(':memory:');
      const day = asDate('2026-08-12');
      const household = await makeDemoHousehold(db, day);
      await keepPlanOfNothing(db, household, day);
      let ticks = 0;
      const now = () => {
        ticks += 1;
        return Date.parse('2026-08-12T20:00:00Z') + ticks;
      };
      app = await buildApp({ db, reference: loadReferenceTables(), now });
      await app.ready();
    });
    afterAll(async () => {
      await app.close();
      await db.destroy();
    });

    test('on its pages, and of some items, sources and batches', async () => {
      const [lots, items, sources] = await Promise.all([
        db.selectFrom('lot').select('id').limit(1).execute(),
        db.selectFrom('item').select('id').execute(),
        db.selectFrom('source').select('id').limit(1).execute(),
      ]);
      const urls = [
        ...app.servedRoutes.flatMap(({ method, url }) =>
          method === 'GET' && !/[:*]|\.\w+$/.test(url) ? [url] : [],
        ),
        '/items/new?kind=staple',
        '/items/new?kind=uncanned',
        '/items/new?kind=uncanned&way=strawberry-freezer-jam',
        '/items/new?kind=own',
        '/items/new?recipe=peach-jam-powder',
        ...items
          .filter((_, at) => at % 12 === 0)
          .flatMap(({ id }) => [`/shelf/${id}`, `/targets/${id}`, `/items/${id}`, `/shelf/count/${id}`]),
        ...lots.map(({ id }) => `/batches/${id}`),
        ...sources.map(({ id }) => `/harvest/${id}`),
      ];

      const { forms, wrong } = await wrongIn({
        visitor: new Visitor(app),
        urls,
        posts: postsOf(app),
        alone: false,
      });

      expect(wrong).toEqual([]);
      expect(forms).toBeGreaterThan(50);
    });
  });
});
