import { get } from 'node:http';

// Ends with 0 when the server beside it can reach its file, on its port or its socket, and with 1 otherwise: a container's health.

const { SHELFWARD_SOCKET: socketPath, SHELFWARD_PORT: port } = process.env;

get({ path: '/ready', ...(socketPath ? { socketPath } : { port: port || 8137 }) }, ({ statusCode }) =>
  process.exit(statusCode === 200 ? 0 : 1),
).on('error', () => process.exit(1));
