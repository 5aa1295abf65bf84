import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';

/**
 * A thread or process does not get the TypeScript loader from every runner that its parent may have (a test runner compiles
 * by itself), so it registers its own first.
 */
export function typescriptLoader(): string {
  const api = pathToFileURL(createRequire(import.meta.url).resolve('tsx/esm/api')).href.replace(
    /\.cjs$/,
    '.mjs',
  );
  return `data:text/javascript,${encodeURIComponent(`import { register } from ${JSON.stringify(api)}; register();`)}`;
}
