import ipaddr from 'ipaddr.js';

/** What stands in place of an address that is none. */
const noAddress = 'unknown';
/** Whoever has an address of the newer kind usually has all of these: they are counted as one. */
const sharedBits = 64;

/** Where on the network somebody is, as it is shown; what is no address is never repeated. */
export const shownAddress = (from: string | undefined): string =>
  from !== undefined && ipaddr.isValid(from) ? ipaddr.process(from).toString() : noAddress;

/** Under which name requests of an address are counted: itself, or for IPv6 (RFC 4291) the network of its first 64 bits. */
export function countedAs(from: string | undefined): string {
  if (from === undefined || !ipaddr.isValid(from)) return noAddress;
  const address = ipaddr.process(from);
  if (address.kind() === 'ipv4') return address.toString();
  return `${ipaddr.IPv6.networkAddressFromCIDR(`${address.toNormalizedString()}/${sharedBits}`).toString()}/${sharedBits}`;
}
