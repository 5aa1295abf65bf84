const programs: readonly (readonly [sign: RegExp, name: string])[] = [
  [/\bEdgA?\//, 'Edge'],
  [/\bOPR\//, 'Opera'],
  [/\bSamsungBrowser\//, 'Samsung Internet'],
  [/\bFirefox\/|\bFxiOS\//, 'Firefox'],
  [/\bChrome\/|\bCriOS\//, 'Chrome'],
  [/\bSafari\//, 'Safari'],
];
const machines: readonly (readonly [sign: RegExp, name: string])[] = [
  [/\bAndroid\b/, 'Android'],
  [/\biPhone\b/, 'iPhone'],
  [/\biPad\b/, 'iPad'],
  [/\bWindows\b/, 'Windows'],
  [/\bMac OS X\b/, 'Mac'],
  [/\bLinux\b/, 'Linux'],
];

/** What a browser says of itself, in words a person knows it by; only names of this list, never what was sent. */
export function deviceWords(userAgent: string | undefined): string {
  const sent = userAgent ?? '';
  const named = (list: typeof programs) => list.find(([sign]) => sign.test(sent))?.[1];
  const program = named(programs);
  const machine = named(machines);
  if (program === undefined && machine === undefined) return 'a program that does not say which';
  return machine === undefined ? `${program}` : `${program ?? 'a browser'} on ${machine}`;
}
