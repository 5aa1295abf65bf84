// Reads a compiled statement as far as this question needs it: is each table that belongs to households, wherever it stands
// in a FROM, JOIN, UPDATE or DELETE, bound by its household to a value the statement was given?

interface Reference {
  readonly table: string;
  readonly alias: string;
  readonly scope: number;
}

type Token = string;

const tokensOf = (statement: string): readonly Token[] =>
  statement.match(/'(?:[^']|'')*'|"[^"]*"|[A-Za-z_][\w$]*|\?|@\w+|\$\d+|[0-9.]+|<>|<=|>=|\|\||[^\s]/g) ?? [];

const nameIn = (token: Token | undefined): string =>
  token === undefined ? '' : token.startsWith('"') ? token.slice(1, -1) : token;
const is = (token: Token | undefined, word: string): boolean => token?.toLowerCase() === word;
const isValue = (token: Token | undefined): boolean =>
  token !== undefined && /^(\?|@\w|\$\d|'|[0-9])/.test(token);
const endsReference = new Set([
  'on',
  'where',
  'set',
  'inner',
  'left',
  'join',
  'order',
  'group',
  'limit',
  'union',
  'returning',
  'cross',
  'using',
  'values',
  'having',
  'intersect',
  'except',
  'select',
  'from',
  'right',
  'natural',
  'as',
]);

/**
 * Tables of households that a statement reads or changes without being bound by the household; `ownedBy` gives the column of a
 * table that says which household a row is of, null for tables of nobody's.
 */
export function unbound(statement: string, ownedBy: (table: string) => string | null): readonly string[] {
  const tokens = tokensOf(statement);
  const references: Reference[] = [];
  const parents: number[] = [-1];
  // Each SELECT between brackets, and each part of a union, is a scope of its own.
  const scopeAt: number[] = [];
  const open: number[] = [];
  let scope = 0;
  for (const [at, token] of tokens.entries()) {
    if (token === '(') {
      open.push(scope);
      if (is(tokens[at + 1], 'select') || is(tokens[at + 1], 'with')) {
        parents.push(scope);
        scope = parents.length - 1;
      }
    }
    scopeAt.push(scope);
    if (token === ')') scope = open.pop() ?? 0;
    if (is(token, 'union')) {
      parents.push(parents[scope] ?? -1);
      scope = parents.length - 1;
    }
  }
  for (const [at, token] of tokens.entries()) {
    const starts =
      is(token, 'from') ||
      is(token, 'join') ||
      (is(token, 'update') && !is(tokens[at - 1], 'do') && at === 0);
    const goesOn = token === ',' && references.at(-1)?.scope === scopeAt[at] && inFromList(tokens, at);
    if (!starts && !goesOn) continue;
    const table = nameIn(tokens[at + 1]);
    if (ownedBy(table) === null || tokens[at + 1] === '(') continue;
    let next = at + 2;
    if (is(tokens[next], 'as')) next += 1;
    const said = tokens[next];
    const hasAlias = said !== undefined && /^["A-Za-z_]/.test(said) && !endsReference.has(said.toLowerCase());
    references.push({ table, alias: hasAlias ? nameIn(said) : table, scope: scopeAt[at] ?? 0 });
  }

  const bound = new Set<number>();
  const same: (readonly [number, number])[] = [];
  const find = (alias: string, from: number): number => {
    for (let level = from; level >= 0; level = parents[level] ?? -1) {
      const found = references.findIndex((one) => one.scope === level && one.alias === alias);
      if (found >= 0) return found;
    }
    return -1;
  };
  const columnAt = (at: number): readonly number[] => {
    const column = nameIn(tokens[at]);
    const here = scopeAt[at] ?? 0;
    const leads = (index: number): boolean => {
      const one = references[index];
      return one !== undefined && ownedBy(one.table) === column;
    };
    if (tokens[at - 1] === '.') {
      const index = find(nameIn(tokens[at - 2]), here);
      return index >= 0 && leads(index) ? [index] : [];
    }
    if (tokens[at + 1] === '.') return [];
    return references.flatMap((one, index) => (one.scope === here && leads(index) ? [index] : []));
  };
  for (const [at, token] of tokens.entries()) {
    if (token !== '=' && !is(token, 'is') && !is(token, 'in')) continue;
    const left = columnAt(at - 1);
    const rightAt = tokens[at + 2] === '.' ? at + 3 : at + 1;
    if (is(token, 'in')) {
      if (tokens[at + 1] === '(' && isValue(tokens[at + 2])) for (const one of left) bound.add(one);
      continue;
    }
    if (isValue(tokens[at + 1])) for (const one of left) bound.add(one);
    const right = columnAt(rightAt);
    if (isValue(tokens[at - 1])) for (const one of right) bound.add(one);
    for (const one of left) for (const other of right) same.push([one, other]);
  }
  for (let grew = true; grew; ) {
    grew = false;
    for (const [one, other] of same)
      if (bound.has(one) !== bound.has(other)) {
        bound.add(one).add(other);
        grew = true;
      }
  }
  return references.flatMap(({ table, alias }, index) =>
    bound.has(index) ? [] : [alias === table ? table : `${table} as ${alias}`],
  );
}

/** Whether a comma stands between tables, not between columns. */
function inFromList(tokens: readonly Token[], at: number): boolean {
  let depth = 0;
  for (let back = at - 1; back >= 0; back -= 1) {
    const token = tokens[back];
    if (token === ')') depth += 1;
    if (token === '(') {
      if (depth === 0) return false;
      depth -= 1;
    }
    if (depth > 0) continue;
    if (is(token, 'from')) return true;
    if (
      ['select', 'where', 'on', 'set', 'by', 'values', 'returning', 'having'].some((word) => is(token, word))
    )
      return false;
  }
  return false;
}
