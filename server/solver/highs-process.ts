import highsModule from 'highs';
import type { Basis, SolveAnswer } from '../../src/planning/solving/solving.ts';
import type { SolveOrder, SolverReport } from './solver-messages.ts';

// The solver's own process: HiGHS runs synchronously and takes memory as it needs it, so it shares neither with requests.

const progressEverySeconds = 0.15;
/** Cuts the solver keeps in store: fewer than its default, measured faster on household models of every size. */
const cutsKept = 500;
const parent = process.ppid;
if (process.send === undefined) throw new Error('highs-process: expected to be started by the program');
const memoryMb = Number(process.env.SOLVER_MEMORY_MB);
if (memoryMb > 0) capMemory(memoryMb);
const report = (message: SolverReport) => process.send?.(message);
/** Whoever asked may have been killed: then nobody waits any more. */
const isOrphan = () => process.ppid !== parent;
// The package's types describe its CommonJS face; as an ES module its default export is the loader itself.
const loadHighs = highsModule as unknown as typeof highsModule.default;
const highs = await loadHighs();
const { modelStatus, callbackType } = highs.constants;

process.on('disconnect', () => process.exit());
process.on('message', (order: SolveOrder) => {
  report({ kind: 'answer', id: order.id, answer: solveGuarded(order) });
});

/** Native failures throw errors whose text can hold the whole solver's source: only a first line goes on. */
function solveGuarded(order: SolveOrder): SolveAnswer {
  try {
    return solve(order);
  } catch (error) {
    const text = error instanceof Error ? error.message : String(error);
    return { status: 'solver crashed', detail: text.split('\n')[0]?.slice(0, 300) ?? '' };
  }
}

function solve(order: SolveOrder): SolveAnswer {
  const { model: packed } = order;
  const rowCount = packed.rowLower.length;
  const columnCount = packed.columnCost.length;
  // Whole numbers that are all decided leave a linear model, solved several times sooner as what it is.
  const isOpen = (column: number) => (packed.columnLower[column] ?? 0) < (packed.columnUpper[column] ?? 0);
  const isMixedInteger =
    !order.relaxed && packed.columnInteger.some((flag, column) => flag === 1 && isOpen(column));
  const model = highs.createModel({
    numCols: columnCount,
    numRows: rowCount,
    offset: packed.constant,
    colCost: packed.columnCost,
    colLower: packed.columnLower,
    colUpper: packed.columnUpper,
    rowLower: packed.rowLower,
    rowUpper: packed.rowUpper,
    matrix: {
      format: 'csr',
      numRows: rowCount,
      numCols: columnCount,
      starts: packed.starts,
      indices: packed.indices,
      values: packed.values,
    },
    ...(isMixedInteger ? { integrality: packed.columnInteger } : {}),
  });
  try {
    model.options.set({
      output_flag: false,
      random_seed: 1,
      time_limit: order.secondsLimit,
      mip_rel_gap: order.gap,
      mip_abs_gap: order.absoluteGap,
      mip_max_nodes: order.nodeLimit,
      mip_heuristic_run_root_reduced_cost: false,
      mip_pool_soft_limit: cutsKept,
      ...(order.isSmall ? { mip_heuristic_run_rins: false, mip_heuristic_run_rens: false } : {}),
    });
    if (order.start !== null && isMixedInteger) model.setSolution({ colValue: order.start });
    if (order.basis !== null && !isMixedInteger)
      model.setBasis({ colStatus: order.basis.columns, rowStatus: order.basis.rows });
    let nextProgressAt = 0;
    let found: Float64Array | undefined;
    const { modelStatus: status } = model.run({
      [callbackType.mipInterrupt](event) {
        const { running_time: seconds = 0, mip_primal_bound: primal, mip_dual_bound: bound } = event.data;
        if (seconds >= nextProgressAt && bound !== undefined && Number.isFinite(bound)) {
          nextProgressAt = seconds + progressEverySeconds;
          const incumbent = primal !== undefined && Math.abs(primal) < 1e29 ? primal : null;
          const gap = incumbent === null ? null : gapBetween(incumbent, bound);
          const values = found === undefined ? {} : { values: found };
          found = undefined;
          report({ kind: 'progress', id: order.id, progress: { incumbent, bound, gap, seconds, ...values } });
        }
        if (isOrphan()) event.interrupt();
        return undefined;
      },
      [callbackType.mipImprovingSolution](event) {
        found = event.data.mip_solution ?? found;
        return undefined;
      },
      [callbackType.simplexInterrupt](event) {
        if (isOrphan()) event.interrupt();
        return undefined;
      },
    });
    // 2 is kSolutionStatusFeasible of the solver's C interface.
    const hasPlan = model.info.get('primal_solution_status') === 2;
    const seconds = model.getRunTime();
    const nodes = isMixedInteger ? Number(model.info.get('mip_node_count')) : 0;
    const answered = (stoppedBy: 'gap' | 'time limit' | 'node limit'): SolveAnswer => {
      const solution = model.getSolution();
      const objective = model.getObjectiveValue();
      const provenBound = isMixedInteger ? Number(model.info.get('mip_dual_bound')) : objective;
      return {
        status: 'solved',
        stoppedBy,
        values: solution.colValue,
        objective,
        bound: Math.min(provenBound, objective),
        basis: isMixedInteger ? null : basisOf(model),
        nodes,
        seconds,
      };
    };
    switch (status) {
      case modelStatus.optimal:
        return answered('gap');
      case modelStatus.empty:
        return answered('gap');
      case modelStatus.objectiveBound:
      case modelStatus.objectiveTarget:
        return hasPlan
          ? answered('gap')
          : { status: 'infeasible', detail: 'no plan within the objective asked for' };
      case modelStatus.timeLimit:
        return hasPlan
          ? answered('time limit')
          : { status: 'time limit without plan', detail: `no plan within ${order.secondsLimit} s` };
      case modelStatus.solutionLimit:
      case modelStatus.iterationLimit:
        return hasPlan
          ? answered('node limit')
          : { status: 'time limit without plan', detail: `no plan within ${order.nodeLimit} nodes` };
      case modelStatus.interrupted:
        return { status: 'cancelled', detail: 'interrupted' };
      case modelStatus.infeasible:
        return { status: 'infeasible', detail: 'infeasible' };
      case modelStatus.unbounded:
        return { status: 'unbounded', detail: 'unbounded' };
      case modelStatus.unboundedOrInfeasible:
        return { status: 'infeasible', detail: 'unbounded or infeasible' };
      case modelStatus.notSet:
      case modelStatus.loadError:
      case modelStatus.modelError:
      case modelStatus.presolveError:
      case modelStatus.solveError:
      case modelStatus.postsolveError:
      case modelStatus.unknown:
        return { status: 'solver crashed', detail: `solver status ${status}` };
      default:
        return { status: 'solver crashed', detail: `solver status ${String(status)} is not known` };
    }
  } finally {
    model.dispose();
  }
}

function basisOf(model: { getBasis(): { colStatus: Int32Array; rowStatus: Int32Array } }): Basis {
  const { colStatus, rowStatus } = model.getBasis();
  return { columns: colStatus, rows: rowStatus };
}

function gapBetween(incumbent: number, bound: number): number {
  return Math.abs(incumbent) < 1e-9 ? 0 : (incumbent - bound) / Math.abs(incumbent);
}

/**
 * The solver's memory lies outside the heap that a process can be told to keep to, so its growth is refused here: the solver
 * then has no more to give out and stops.
 */
function capMemory(mostMb: number): void {
  const grow = WebAssembly.Memory.prototype.grow;
  const mostBytes = mostMb * 1024 * 1024;
  const pageBytes = 65_536;
  WebAssembly.Memory.prototype.grow = function (pages: number) {
    if (this.buffer.byteLength + pages * pageBytes > mostBytes)
      throw new RangeError(`the solver may use ${mostMb} MB`);
    return grow.call(this, pages);
  };
}
