const harmless = ['PATH', 'HOME', 'TMPDIR', 'TZ', 'SystemRoot', 'TEMP'];

/** What a process beside the one that serves needs of the environment: nothing that is secret. */
export const harmlessEnvironment = (): Record<string, string> =>
  Object.fromEntries(
    harmless.flatMap((name) => {
      const value = process.env[name];
      return value === undefined ? [] : [[name, value]];
    }),
  );
