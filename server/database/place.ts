/** Whether a place is the address of a PostgreSQL database; any other is a file's. */
export const isAddress = (place: string): boolean => /^postgres(ql)?:\/\//.test(place);

/** The place as it may be shown: an address without its passphrase and its settings. */
export function shownPlace(place: string): string {
  if (!isAddress(place)) return place;
  const [address = ''] = place.split('?');
  return address.replace(/^(\w+:\/\/[^:@/]*)(?::.*)?@(?=[^@]*$)/, '$1@');
}
