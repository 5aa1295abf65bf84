// Stands in for the solver's process: it fails outside every guard.
process.on('message', () => {
  throw new Error('out of memory\nand a page of source text');
});
