import {
  CompiledQuery,
  type DatabaseConnection,
  PostgresDialect,
  PostgresDriver,
  type QueryResult,
  type TransactionSettings,
} from 'kysely';
import pg from 'pg';
import { ShelfwardError } from '../../../shared/problems.ts';
import { ApartAdapter } from './adapters.ts';
import { householdSetting, roles } from './roles.ts';
import { type Whose, whoseRows } from './whose-rows.ts';

// A connection of which every transaction says first whose rows it may see, until it ends: nothing of that is left on it for the
// next who gets it from the pool. A statement by itself is such a transaction.

export class ApartDialect extends PostgresDialect {
  readonly #pool: pg.Pool;

  constructor(pool: pg.Pool) {
    super({ pool });
    this.#pool = pool;
  }

  override createAdapter(): ApartAdapter {
    return new ApartAdapter();
  }

  override createDriver(): PostgresDriver {
    return new ApartDriver({ pool: this.#pool });
  }
}

class ApartDriver extends PostgresDriver {
  override async acquireConnection(): Promise<ApartConnection> {
    return new ApartConnection((await super.acquireConnection()) as DatabaseConnection);
  }

  override async beginTransaction(
    connection: DatabaseConnection,
    settings: TransactionSettings,
  ): Promise<void> {
    const { own } = asApart(connection);
    const said = saying(whoseRows());
    await super.beginTransaction(own as never, settings);
    try {
      await own.executeQuery(said);
    } catch (cause) {
      await endedWith(cause, () => super.rollbackTransaction(own as never));
      throw cause;
    }
    asApart(connection).isInside = true;
  }

  override async commitTransaction(connection: DatabaseConnection): Promise<void> {
    const apart = asApart(connection);
    apart.isInside = false;
    await super.commitTransaction(apart.own as never);
  }

  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    const apart = asApart(connection);
    apart.isInside = false;
    await super.rollbackTransaction(apart.own as never);
  }

  override releaseConnection(connection: DatabaseConnection): Promise<void> {
    return super.releaseConnection(asApart(connection).own as never);
  }
}

const asApart = (connection: DatabaseConnection): ApartConnection => connection as ApartConnection;

/** What cannot be done within a transaction, and asks for no row. */
const aloneStatement = /^vacuum /i;

class ApartConnection implements DatabaseConnection {
  readonly own: DatabaseConnection;
  isInside = false;

  constructor(own: DatabaseConnection) {
    this.own = own;
  }

  async executeQuery<Row>(query: CompiledQuery): Promise<QueryResult<Row>> {
    if (this.isInside || aloneStatement.test(query.sql)) return this.own.executeQuery<Row>(query);
    const said = saying(whoseRows());
    try {
      await this.own.executeQuery(CompiledQuery.raw(`BEGIN; ${said.sql}`));
      const result = await this.own.executeQuery<Row>(query);
      await this.own.executeQuery(CompiledQuery.raw('COMMIT'));
      return result;
    } catch (cause) {
      await endedWith(cause, () => this.own.executeQuery(CompiledQuery.raw('ROLLBACK')));
      throw cause;
    }
  }

  streamQuery<Row>(): AsyncIterableIterator<QueryResult<Row>> {
    throw new Error('streamQuery: rows are read by pages');
  }
}

/** What went wrong first is what is told, though the end of its transaction went wrong as well. */
async function endedWith(cause: unknown, end: () => Promise<unknown>): Promise<void> {
  await end().catch(() => {
    throw cause;
  });
}

/** The statement that says whose rows a transaction may see, until it ends. */
function saying(whose: Whose): CompiledQuery {
  if (whose === 'nobody')
    throw new ShelfwardError('rows-of-nobody', 'expected whose rows may be seen, found that nobody said so');
  const [role, household] =
    typeof whose === 'string' ? [roles[whose], ''] : [roles.household, whose.household];
  const [named, value] = [pg.escapeLiteral(role), pg.escapeLiteral(household)];
  return CompiledQuery.raw(
    `SELECT set_config('role', ${named}, true), set_config('${householdSetting}', ${value}, true)`,
  );
}
