// Stands in for the solver's process: it works for ever and does not look up.
process.on('message', () => {
  for (;;);
});
