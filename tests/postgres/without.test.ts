import { inject, test } from 'vitest';

test.skipIf(inject('postgres') === null)(
  'PostgreSQL is on this machine, and the tests on it are run',
  () => {},
);
