import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';

/**
 * What a thread or process is started with so that it reads its script. TypeScript is not loaded by every runner that its parent
 * may have (a test runner compiles by itself), so it registers its own loader first; JavaScript asks for nothing.
 */
export function loaderFor(script: URL): readonly string[] {
  if (!script.pathname.endsWith('.ts')) return [];
  const api = pathToFileURL(createRequire(import.meta.url).resolve('tsx/esm/api')).href.replace(
    /\.cjs$/,
    '.mjs',
  );
  return [
    '--import',
    `data:text/javascript,${encodeURIComponent(`import { register } from ${JSON.stringify(api)}; register();`)}`,
  ];
}
