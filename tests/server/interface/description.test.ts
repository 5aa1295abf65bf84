import { Validator } from '@seriousme/openapi-schema-validator';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { congruential32 } from 'pure-rand/generator/congruential32';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { plannedQuinceYard } from '../../builders/planned-quince-yard.ts';
import { quinceYard } from '../../builders/quince-yard.ts';
import type { QuinceYardPages } from '../../builders/quince-yard-pages.ts';
import { Thing, type ThingAnswer } from '../../builders/thing.ts';

// The description as others read it: by an independent validator, and held against what is really answered.

interface Described {
  readonly openapi: string;
  readonly paths: Readonly<
    Record<
      string,
      Readonly<Record<string, { readonly responses: Readonly<Record<string, DescribedAnswer>> }>>
    >
  >;
  readonly components: { readonly schemas: Readonly<Record<string, object>> };
}
interface DescribedAnswer {
  readonly content?: Readonly<Record<string, { readonly schema: { readonly $ref: string } }>>;
  readonly headers?: Readonly<Record<string, unknown>>;
}

let pages: QuinceYardPages;
let described: Described;
let thing: Thing;
let onlyReads: Thing;
const validators = new Map<string, ValidateFunction>();
beforeAll(async () => {
  pages = await plannedQuinceYard();
  const { app, db } = pages;
  described = (await app.inject({ url: '/api/v1/openapi.json' })).json<Described>();
  thing = await Thing.of(app, db, quinceYard);
  onlyReads = await Thing.of(app, db, quinceYard, { name: 'Hall clock', may: 'read' });
  const ajv = new Ajv2020({ strict: true, allErrors: true, allowUnionTypes: true });
  addFormats.default(ajv);
  ajv.addVocabulary(['components']);
  ajv.addSchema({ $id: 'https://shelf.example/described', components: described.components });
  for (const name of Object.keys(described.components.schemas))
    validators.set(
      name,
      ajv.compile({ $ref: `https://shelf.example/described#/components/schemas/${name}` }),
    );
});
afterAll(() => pages.close());

/** What is wrong with an answer by what the description says of this operation and status. */
function amissIn(
  method: 'get' | 'post',
  path: string,
  { status, type, headers, json }: ThingAnswer,
): readonly string[] {
  const where = `${method} ${path} ${status}`;
  const answer = described.paths[path]?.[method]?.responses[String(status)];
  if (answer === undefined) return [`${where} is not described`];
  const missing = Object.keys(answer.headers ?? {}).filter(
    (name) => headers[name.toLowerCase()] === undefined,
  );
  const [kind] = type.split(';');
  const content = answer.content?.[kind ?? ''];
  if (content === undefined) return status === 304 ? [] : [`${where} is ${type}`];
  const name = content.schema.$ref.split('/').at(-1) ?? '';
  const validate = validators.get(name);
  return [
    ...missing.map((header) => `${where} without ${header}`),
    ...(validate?.(json) === true
      ? []
      : [`${where}: ${JSON.stringify(validate?.errors)} in ${JSON.stringify(json)}`]),
  ];
}

test('an independent validator finds OpenAPI 3.1 in it', async () => {
  const validator = new Validator();
  const { valid, errors } = await validator.validate(described as unknown as Record<string, unknown>);

  expect(errors).toBeUndefined();
  expect(valid).toBe(true);
  expect(validator.version).toBe('3.1');
});

test('describes every route there is under its address, and none that is not', () => {
  const served = pages.app.servedRoutes
    .filter(({ url, method }) => url.startsWith('/api/v1/') && method !== 'HEAD' && !url.endsWith('.json'))
    .map(
      ({ method, url }) =>
        `${method.toLowerCase()} ${url.slice('/api/v1'.length).replaceAll(/:(\w+)/g, '{$1}')}`,
    );
  const told = Object.entries(described.paths).flatMap(([path, methods]) =>
    Object.keys(methods).map((method) => `${method} ${path}`),
  );

  expect(told.toSorted()).toEqual(served.toSorted());
  expect(told.length).toBe(7);
});

test('every schema is named where it is used, and every operation can be refused for its token and too many', () => {
  const used = new Set(
    [...JSON.stringify(described).matchAll(/#\/components\/schemas\/(\w+)/g)].map(([, name]) => name),
  );

  expect([...used].toSorted()).toEqual(Object.keys(described.components.schemas).toSorted());
  for (const methods of Object.values(described.paths))
    for (const { responses } of Object.values(methods))
      expect(Object.keys(responses)).toEqual(expect.arrayContaining(['401', '403', '429', '503']));
});

test('what is read is as described, for a household with a plan', async () => {
  const amiss: string[] = [];
  for (const path of ['/shelf', '/eat-first', '/week', '/notices'])
    amiss.push(...amissIn('get', path, await thing.read(path)));
  const shelf = (await thing.read('/shelf')).json.items as readonly { readonly id: string }[];
  for (const { id } of shelf)
    amiss.push(...amissIn('get', '/items/{item}', await thing.read(`/items/${id}`)));
  const week = (await thing.read('/week')).json;

  expect(amiss).toEqual([]);
  expect(shelf.length).toBeGreaterThan(3);
  expect(week.plan).toBe('current');
});

test.each([11, 12, 13])(
  'two hundred requests, fitting and not, are answered as described (seed %i)',
  async (seed) => {
    const random = congruential32(seed);
    const upTo = (most: number): number => uniformInt(random, 0, most);
    const pick = <T>(list: readonly T[]): T => list[upTo(list.length - 1)] as T;
    const items = ['plum-jam', 'green-beans', 'cured-pickles', 'oats', 'nobodys', 'No id', 7, null];
    const odd = [
      null,
      '',
      'x'.repeat(90),
      -1,
      0,
      0.5,
      1e9,
      true,
      [],
      {},
      '2026-02-30',
      '2026-08-16',
      '1999-01-01',
      'a\nb',
    ];
    const fields = ['batch', 'units', 'outcome', 'on', 'forPromise', 'who', 'unknown', 'item'];
    const made = ['nobodys'];
    const amiss: string[] = [];
    const statuses = new Set<number>();
    let taking = thing;
    for (let at = 0; at < 200; at += 1) {
      // One thing may ask a hundred and twenty times a minute.
      if (at % 90 === 0)
        taking = await Thing.of(pages.app, pages.db, quinceYard, { name: `Thing ${seed} ${at}` });
      const own = upTo(9) === 0 ? onlyReads : taking;
      const draw = upTo(9);
      if (draw < 6) {
        const body: Record<string, unknown> = { item: pick(items) };
        for (let more = upTo(2); more > 0; more -= 1)
          body[pick(fields)] = pick([...odd, 1, 2, 'taken', 'given-away', 'broken']);
        const sent = pick([
          body,
          body,
          body,
          { item: pick(items.slice(0, 4)) },
          '{"item":',
          [body],
          JSON.stringify(null),
        ]);
        const answer = await own.write(
          '/takes',
          sent,
          pick([undefined, undefined, undefined, null, 'short', `again-${seed}`]),
        );
        statuses.add(answer.status);
        if (typeof answer.json.take === 'string') made.push(answer.json.take);
        amiss.push(...amissIn('post', '/takes', answer));
      } else if (draw < 8) {
        const answer = await own.write(`/takes/${pick([...made, 'made august-jam'])}/undo`);
        statuses.add(answer.status);
        amiss.push(...amissIn('post', '/takes/{take}/undo', answer));
      } else {
        const id = pick(['plum-jam', 'oats', 'nobodys', '%20']);
        const answer = await own.read(`/items/${id}`);
        statuses.add(answer.status);
        amiss.push(...amissIn('get', '/items/{item}', answer));
      }
    }

    expect(amiss).toEqual([]);
    // Not a walk along one door.
    expect([...statuses].toSorted()).toEqual(expect.arrayContaining([200, 201, 400, 403, 404, 422]));
  },
);
