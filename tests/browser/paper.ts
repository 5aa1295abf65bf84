import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';

// What comes out of the printer: a page as a PDF, read and drawn by an independent reader of PDFs (pdf.js) in a page of its own.

const require = createRequire(import.meta.url);
const reader = {
  '/pdf.mjs': require.resolve('pdfjs-dist/build/pdf.min.mjs'),
  '/pdf.worker.mjs': require.resolve('pdfjs-dist/build/pdf.worker.min.mjs'),
} as const;
const readerAddress = 'http://reader.of.paper';

/** A rectangle on a side of paper, in mm from its upper left corner. */
export interface OnPaper {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Side {
  readonly widthMm: number;
  readonly heightMm: number;
  /** What is not white once it is drawn; null of an empty side. */
  readonly ink: OnPaper | null;
  readonly texts: readonly (OnPaper & { readonly words: string; readonly sizePt: number })[];
}

export interface Paper {
  readonly sides: readonly Side[];
  /** Fonts that the file names without bringing them. */
  readonly fontsLeftOut: readonly string[];
}

/** Opened once for all papers that are read. */
export const openPaperReader = async (browser: Browser) => {
  const page = await browser.newPage();
  await page.route(`${readerAddress}/**`, (route) => {
    const file = reader[new URL(route.request().url()).pathname as keyof typeof reader];
    return file === undefined
      ? route.fulfill({ contentType: 'text/html', body: '<!doctype html><title>paper</title>' })
      : route.fulfill({ contentType: 'text/javascript', body: readFileSync(file, 'utf8') });
  });
  await page.goto(`${readerAddress}/`);
  return {
    read: (pdf: Buffer): Promise<Paper> => page.evaluate<Paper>(readPaper(pdf.toString('base64'))),
    close: () => page.close(),
  };
};

/** Runs in the page: draws every side at 100 dots an inch, finds its ink, and asks for its words and fonts. */
const readPaper = (base64: string): string => `(async () => {
  const pdfjs = await import('/pdf.mjs');
  pdfjs.GlobalWorkerOptions.workerSrc = '/pdf.worker.mjs';
  const data = Uint8Array.from(atob('${base64}'), (sign) => sign.charCodeAt(0));
  const task = pdfjs.getDocument({ data, fontExtraProperties: true });
  const paper = await task.promise;
  const mm = 25.4 / 72;
  const scale = 100 / 72;
  const sides = [];
  const fontsLeftOut = new Set();
  for (let at = 1; at <= paper.numPages; at += 1) {
    const side = await paper.getPage(at);
    const view = side.getViewport({ scale });
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(view.width);
    canvas.height = Math.round(view.height);
    const pen = canvas.getContext('2d', { willReadFrequently: true });
    await side.render({ canvasContext: pen, canvas, viewport: view, background: '#fff' }).promise;
    const { data: dots } = pen.getImageData(0, 0, canvas.width, canvas.height);
    let [left, top, right, bottom] = [canvas.width, canvas.height, -1, -1];
    for (let y = 0; y < canvas.height; y += 1)
      for (let x = 0; x < canvas.width; x += 1) {
        const dot = (y * canvas.width + x) * 4;
        if (dots[dot] > 245 && dots[dot + 1] > 245 && dots[dot + 2] > 245) continue;
        left = Math.min(left, x); right = Math.max(right, x + 1);
        top = Math.min(top, y); bottom = Math.max(bottom, y + 1);
      }
    const [, , width, height] = side.view;
    const { items } = await side.getTextContent();
    const texts = items.filter(({ str }) => str && str.trim() !== '').map((item) => {
      const [a, b, , , x, y] = item.transform;
      const size = Math.hypot(a, b);
      return { words: item.str, sizePt: size, left: x * mm, right: (x + item.width) * mm,
        top: (height - y - size) * mm, bottom: (height - y) * mm };
    });
    for (const name of new Set(items.map(({ fontName }) => fontName).filter(Boolean))) {
      const font = side.commonObjs.get(name);
      if (font.missingFile) fontsLeftOut.add(font.name);
    }
    const dot = mm / scale;
    sides.push({ widthMm: width * mm, heightMm: height * mm, texts,
      ink: right < 0 ? null : { left: left * dot, top: top * dot, right: right * dot, bottom: bottom * dot } });
  }
  await task.destroy();
  return { sides, fontsLeftOut: [...fontsLeftOut] };
})()`;

/** Words that stand outside their own box as it is printed: cut off by it, or lying over what stands beside it. */
export const wordsOutsideTheirBox = async (page: Page): Promise<readonly string[]> => {
  await page.emulateMedia({ media: 'print' });
  const outside = await page.evaluate<readonly string[]>(`(() => {
    const blocks = 'td, th, li, p, dt, dd, h1, h2, h3, caption, summary, .label, section, div';
    const found = new Set();
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let text = walker.nextNode(); text; text = walker.nextNode()) {
      if (text.data.trim() === '') continue;
      const own = text.parentElement;
      if (own.closest('svg, .heard-only, [hidden]') || !own.checkVisibility()) continue;
      const box = own.closest(blocks)?.getBoundingClientRect();
      if (!box || box.width === 0) continue;
      const range = document.createRange();
      range.selectNodeContents(text);
      for (const line of range.getClientRects())
        if (line.left < box.left - 1.5 || line.right > box.right + 1.5)
          found.add(text.data.trim().slice(0, 60));
    }
    return [...found];
  })()`);
  await page.emulateMedia({ media: null });
  return outside;
};
