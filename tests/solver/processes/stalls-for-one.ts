// Stands in for the solver's process: a model of one column is answered at once, any other never.
process.on('message', ({ id, model }: { id: number; model: { columnCost: Float64Array } }) => {
  if (model.columnCost.length > 1) for (;;);
  const answer = { status: 'infeasible', detail: `by ${process.pid}` };
  process.send?.({ kind: 'answer', id, answer });
});
