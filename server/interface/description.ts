import { z } from 'zod';
import { pageNames } from '../../views/words/page-names.ts';
import { interfaceAddress } from '../access/connected-things.ts';
import { type Operation, operations, type Refusal } from './operations.ts';
import { problemShape } from './shapes.ts';

/** Part of a document of JSON. */
type Json = Readonly<Record<string, unknown>>;

const refs = '#/components/schemas/';

/** The schemas by name, each once: what is sent as it may be written, what is answered as it is read. */
function schemasOf(): Json {
  const all = Object.values(operations as Readonly<Record<string, Operation>>);
  const sent = all.flatMap((operation) =>
    operation.sent === undefined ? [] : [defsOf(operation.sent, 'input')],
  );
  const answered = [...all.map(({ answer }) => answer), problemShape].map((shape) => defsOf(shape, 'output'));
  return Object.assign({}, ...sent, ...answered) as Json;
}

function defsOf(shape: z.ZodType, io: 'input' | 'output'): Json {
  const { $defs = {} } = z.toJSONSchema(shape, {
    io,
    override: ({ jsonSchema }) => {
      // Answers may be given more fields later: a program that reads them lets those be.
      if (io === 'output') delete jsonSchema.additionalProperties;
      // What a date is the format says already.
      if (jsonSchema.format === 'date') delete jsonSchema.pattern;
    },
  });
  return JSON.parse(JSON.stringify($defs).replaceAll('"#/$defs/', `"${refs}`)) as Json;
}

const nameOf = (shape: z.ZodType): string => String(shape.meta()?.id ?? '');

const inJson = (shape: z.ZodType): Json => ({
  'application/json': { schema: { $ref: `${refs}${nameOf(shape)}` } },
});

const problem = (description: string, headers?: Json): Json => ({
  description,
  ...(headers === undefined ? {} : { headers }),
  content: { 'application/problem+json': { schema: { $ref: `${refs}Problem` } } },
});

const refusals: Readonly<Record<Refusal, Json>> = {
  400: problem('What was sent is no JSON, or the key of the write is missing or of another length.'),
  404: problem('The household has nothing of that name.'),
  409: problem('Already done, or the key was used for another request.'),
  413: problem('More was sent than 1 MB.'),
  415: problem('What was sent is not said to be JSON.'),
  422: problem('Something in it has to be mended; the shelf stays as it was.'),
};
const textHeader = (description: string): Json => ({ description, schema: { type: 'string' } });
const everyRefusal: Json = {
  401: problem('No access token was shown, or one that opens nothing.', {
    'WWW-Authenticate': textHeader('How to be let in (RFC 6750).'),
  }),
  403: problem('The thing may only read.', { 'WWW-Authenticate': textHeader('The scope that is missing.') }),
  429: problem('Too many requests; wait.', { 'Retry-After': textHeader('Seconds to wait.') }),
  503: problem('Not now; try again.'),
};

const keyHeader: Json = {
  name: 'Idempotency-Key',
  in: 'header',
  required: true,
  description:
    'Names this one write, 8 to 100 letters, digits and signs that can be seen. Sent again with the same key it counts once, and the first answer comes back; with the same key and another content it is refused.',
  schema: { type: 'string', minLength: 8, maxLength: 100, pattern: '^[\\x21-\\x7e]+$' },
};
const etagHeader: Json = {
  name: 'If-None-Match',
  in: 'header',
  required: false,
  description: 'The ETag of the last answer: 304 says that nothing has changed.',
  schema: { type: 'string' },
};

function describe({
  id,
  method,
  summary,
  parameter,
  sent,
  answer,
  status,
  refusals: own,
  needs,
}: Operation): Json {
  const named =
    parameter === undefined ? [] : [{ ...parameter, in: 'path', required: true, schema: { type: 'string' } }];
  return {
    operationId: id,
    summary,
    security: [{ accessToken: [] }],
    description: needs === 'thing takes' ? 'Needs the scope to take.' : 'Needs the scope to read.',
    parameters: [...named, method === 'POST' ? keyHeader : etagHeader],
    ...(sent === undefined ? {} : { requestBody: { required: true, content: inJson(sent) } }),
    responses: {
      [status]: {
        description: summary,
        ...(method === 'GET' ? { headers: { ETag: textHeader('Of this answer.') } } : {}),
        content: inJson(answer),
      },
      ...(method === 'GET' ? { 304: { description: 'Nothing has changed since.' } } : {}),
      ...Object.fromEntries(own.map((refusal) => [refusal, refusals[refusal]])),
      ...everyRefusal,
    },
  };
}

/** The interface as OpenAPI 3.1 describes it. */
export const interfaceDescription = (): Json => ({
  openapi: '3.1.0',
  info: {
    title: 'Shelfward',
    version: '1',
    summary: 'A household’s shelf, week and notices, for other things the household has.',
    description: `Whoever asks shows an access token that an owner made under ${pageNames.kitchen}, ${pageNames.people}, Connected things. It opens one household. A thing may ask 120 times a minute.`,
    license: { name: 'MIT', identifier: 'MIT' },
  },
  servers: [{ url: interfaceAddress }],
  paths: Object.fromEntries(
    Object.values(operations as Readonly<Record<string, Operation>>).map((operation) => [
      operation.path,
      { [operation.method.toLowerCase()]: describe(operation) },
    ]),
  ),
  components: {
    securitySchemes: {
      accessToken: { type: 'http', scheme: 'bearer', description: 'The access token of a connected thing.' },
    },
    schemas: schemasOf(),
  },
});
