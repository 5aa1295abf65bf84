import { createHash, randomBytes } from 'node:crypto';

/** 256 bits nobody can guess; it is shown or sent once and kept only as its hash. */
export const newToken = (): string => randomBytes(32).toString('base64url');

export const tokenHash = (token: string): string => createHash('sha256').update(token).digest('hex');
