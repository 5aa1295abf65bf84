// A link that lets somebody in, or has a weight of its own, carries its secret behind `#`: browsers send that part to nobody.

/** Where links with a secret lead. */
export const linkPages = {
  invitation: '/invitations',
  reset: '/passphrase',
  mailAddress: '/mail-address',
} as const;
export type LinkPage = (typeof linkPages)[keyof typeof linkPages];

/** The link itself, as it is given away. */
export const linkTo = (address: string, page: LinkPage, secret: string): string =>
  `${address}${page}#${secret}`;
