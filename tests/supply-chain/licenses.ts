interface LockedPackage {
  readonly version?: string;
  readonly license?: string;
  readonly dev?: boolean;
  readonly optional?: boolean;
  readonly engines?: { readonly node?: string };
}

export interface PackageLock {
  readonly packages: Readonly<Record<string, LockedPackage>>;
}

export interface LicensedPackage {
  readonly name: string;
  readonly version: string;
  /** As the package says it, an SPDX expression; `not said` where it says nothing. */
  readonly license: string;
}

/** Licenses under which what runs in production may come. */
const permittedLicenses: ReadonlySet<string> = new Set([
  '0BSD',
  'Apache-2.0',
  'BlueOak-1.0.0',
  'BSD-0-Clause',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'ISC',
  'MIT',
  'MIT-0',
  'OFL-1.1',
]);

/** Whether an SPDX expression lets us choose only among permitted licenses: one side of OR is enough, AND needs both. */
export const isPermitted = (license: string): boolean =>
  license
    .replace(/^\((.*)\)$/, '$1')
    .split(' OR ')
    .some((choice) => choice.split(' AND ').every((one) => permittedLicenses.has(one.trim())));

/** Every package of the lock file that production needs, each version once, by name. */
export const productionPackages = ({ packages }: PackageLock): readonly LicensedPackage[] => {
  const byKey = new Map<string, LicensedPackage>();
  for (const [path, { version, license, dev }] of Object.entries(packages)) {
    if (path === '' || dev === true || version === undefined) continue;
    const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
    byKey.set(`${name}@${version}`, { name, version, license: license ?? 'not said' });
  }
  return [...byKey.entries()].toSorted(([one], [other]) => (one < other ? -1 : 1)).map(([, found]) => found);
};

/** The text of `LICENSES.md`; the same lock file gives the same text. */
export const licensesText = (lock: PackageLock): string =>
  [
    '# Licenses of what runs in production',
    '',
    'Written by `npm run licenses` from `package-lock.json`. Shelfward itself: MIT, see `LICENSE`.',
    '',
    '| package | version | license |',
    '|---|---|---|',
    ...productionPackages(lock).map(({ name, version, license }) => `| ${name} | ${version} | ${license} |`),
    '',
  ].join('\n');
