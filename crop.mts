import { launchBrowser } from '/work/main/tests/browser/browser.ts';
import { readFileSync } from 'node:fs';
const [,, src, out, cols, h] = process.argv; const n=Number(cols), hh=Number(h);
const b = await launchBrowser(); const p = await (await b.newContext({viewport:{width:n*300,height:Math.ceil(hh)}})).newPage();
const d=`data:image/png;base64,${readFileSync(src!).toString('base64')}`;
await p.setContent(`<body style="margin:0;display:flex;gap:6px;background:#888">${Array.from({length:n},(_,i)=>`<div style="width:290px;height:${hh}px;overflow:hidden;flex:none"><img style="width:290px;margin-top:-${i*hh}px" src="${d}"></div>`).join('')}</body>`);
await p.screenshot({path:out!}); await b.close();
