import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { brotliCompressSync, constants } from 'node:zlib';
import fp from 'fastify-plugin';
import type { AssetUrls } from '../../../views/layout/frame.ts';
import { programFile } from '../../program.ts';
import { tightened } from './tightened.ts';

// Style sheets, script and fonts are read once at boot, named by their content and kept forever by the browser.

const require = createRequire(import.meta.url);
const assetFolder = programFile('views/assets/');

const wholeTextFace =
  '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2';
const wholeTitleFace = '@fontsource-variable/bitter/files/bitter-latin-wght-normal.woff2';

export interface Asset {
  readonly url: string;
  readonly type: string;
  readonly body: Buffer;
  /** The same, compressed once at boot; null where that gains nothing. */
  readonly brotli: Buffer | null;
}

export interface AssetShelf {
  readonly urls: AssetUrls;
  readonly byUrl: ReadonlyMap<string, Asset>;
}

const nameByContent = (name: string, extension: string, body: Buffer): string =>
  `/assets/${name}.${createHash('sha256').update(body).digest('base64url').slice(0, 12)}.${extension}`;

const asset = (name: string, extension: string, type: string, body: Buffer): Asset => ({
  url: nameByContent(name, extension, body),
  type,
  body,
  brotli: type.startsWith('font/')
    ? null
    : brotliCompressSync(body, { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } }),
});

/** What is drawn in these alone makes a sheet of its own: no other page has to wait for it. */
const ownFolders = ['canning-day', 'compared', 'paper', 'start', 'year'];

const folderOf = (path: string): string | null =>
  ownFolders.find((folder) => path.startsWith(`${folder}/`)) ?? null;

/** `tokens.css` first, because it declares the order of the layers; the rest by name. */
const styleSheets = (folder: string | null): string[] =>
  readdirSync(assetFolder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.css') && folderOf(path) === folder)
    .sort(
      (one, other) => Number(other === 'tokens.css') - Number(one === 'tokens.css') || (one < other ? -1 : 1),
    );

/** Reads and names everything the pages load. */
const gatherAssets = (): AssetShelf => {
  const font = (name: string, path: string): Asset => asset(name, 'woff2', 'font/woff2', readFileSync(path));
  const fonts = {
    'font:text-whole': font('text-whole', require.resolve(wholeTextFace)),
    'font:title-whole': font('title-whole', require.resolve(wholeTitleFace)),
    'font:text': font('text', `${assetFolder}fonts/text.woff2`),
    'font:title': font('title', `${assetFolder}fonts/title.woff2`),
  };
  const styled = (name: string, folder: string | null): Asset => {
    const css = Object.entries(fonts).reduce(
      (text, [font, { url }]) => text.replaceAll(`"${font}"`, `"${url}"`),
      tightened(
        styleSheets(folder)
          .map((path) => readFileSync(`${assetFolder}${path}`, 'utf8'))
          .join('\n'),
      ),
    );
    return asset(name, 'css', 'text/css; charset=utf-8', Buffer.from(css));
  };
  const styles = styled('style', null);
  const canningStyles = styled('canning', 'canning-day');
  const comparedStyles = styled('compared', 'compared');
  const paperStyles = styled('paper', 'paper');
  const startStyles = styled('start', 'start');
  const yearStyles = styled('year', 'year');
  const htmx = asset(
    'htmx',
    'js',
    'text/javascript; charset=utf-8',
    readFileSync(require.resolve('htmx.org/dist/htmx.min.js')),
  );
  const clock = asset(
    'clock',
    'js',
    'text/javascript; charset=utf-8',
    readFileSync(`${assetFolder}clock.js`),
  );
  const link = asset('link', 'js', 'text/javascript; charset=utf-8', readFileSync(`${assetFolder}link.js`));
  const icon = asset('icon', 'svg', 'image/svg+xml', readFileSync(`${assetFolder}icon.svg`));
  const all = [
    ...Object.values(fonts),
    styles,
    canningStyles,
    comparedStyles,
    paperStyles,
    startStyles,
    yearStyles,
    htmx,
    clock,
    link,
    icon,
  ];
  return {
    urls: {
      css: styles.url,
      canningCss: canningStyles.url,
      comparedCss: comparedStyles.url,
      paperCss: paperStyles.url,
      startCss: startStyles.url,
      yearCss: yearStyles.url,
      htmx: htmx.url,
      clock: clock.url,
      link: link.url,
      icon: icon.url,
      textFont: fonts['font:text'].url,
      titleFont: fonts['font:title'].url,
    },
    byUrl: new Map(all.map((one) => [one.url, one])),
  };
};

let gathered: AssetShelf | null = null;
/** What the pages load, gathered at the first boot in this process. */
const gatheredAssets = (): AssetShelf => {
  gathered ??= gatherAssets();
  return gathered;
};

export default fp(
  async (app) => {
    const shelf = gatheredAssets();
    app.decorate('assets', shelf);

    app.get('/assets/:name', { compress: false, logLevel: 'warn' }, (request, reply) => {
      const wanted = shelf.byUrl.get(request.url);
      if (wanted === undefined) return reply.callNotFound();
      reply
        .header('cache-control', 'public, max-age=31536000, immutable')
        .type(wanted.type)
        .header('vary', 'accept-encoding');
      const takesBrotli = /\bbr\b/.test(request.headers['accept-encoding'] ?? '');
      if (wanted.brotli === null || !takesBrotli) return reply.send(wanted.body);
      return reply.header('content-encoding', 'br').send(wanted.brotli);
    });
    app.get('/robots.txt', (_request, reply) =>
      reply.type('text/plain; charset=utf-8').send('User-agent: *\nDisallow:\n'),
    );
    app.get('/favicon.ico', (_request, reply) => reply.redirect(shelf.urls.icon, 302));
  },
  { name: 'assets', dependencies: ['compression'] },
);
