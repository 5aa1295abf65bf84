/** A readable id from a name, not among those taken: `far-orchard`, then `far-orchard-2`. */
export function freshId(name: string, taken: readonly string[]): string {
  const slug =
    name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 48)
      .replace(/-+$/, '') || 'unnamed';
  if (!taken.includes(slug)) return slug;
  let number = 2;
  while (taken.includes(`${slug}-${number}`)) number += 1;
  return `${slug}-${number}`;
}
