/** A static server for the built site: sirv behind node:http, on the loopback address. */
import { existsSync, readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { join } from 'node:path';
import sirv from 'sirv';

export class PortInUse extends Error {}

const loopback = '127.0.0.1';

/** Headers of the file `_headers` for every path, so that the site is tried under what a static host will send. */
export function sharedHeaders(folder: string): Readonly<Record<string, string>> {
  const file = join(folder, '_headers');
  if (!existsSync(file)) return {};
  const lines = readFileSync(file, 'utf8').split('\n');
  const start = lines.indexOf('/*');
  const rest = lines.slice(start + 1);
  const end = rest.findIndex((line) => line !== '' && !line.startsWith('  '));
  return Object.fromEntries(
    (end < 0 ? rest : rest.slice(0, end))
      .filter((line) => line.includes(':'))
      .map((line) => [line.slice(0, line.indexOf(':')).trim(), line.slice(line.indexOf(':') + 1).trim()]),
  );
}

/**
 * Serves `folder` on `port` (0: any free one). Hashed files are kept for a year, everything else is asked for anew.
 * @throws PortInUse
 */
export async function startServer(folder: string, port: number): Promise<{ readonly address: string; readonly stop: () => Promise<void> }> {
  const headers = sharedHeaders(folder);
  const files = sirv(folder, {
    etag: true,
    gzip: true,
    brotli: true,
    setHeaders: (response, path) => {
      for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
      response.setHeader('Cache-Control', /^\/assets\/.*\.[\w-]{8}\.\w+$/.test(path) ? 'public, max-age=31536000, immutable' : 'no-cache');
      if (path.endsWith('.webmanifest')) response.setHeader('Content-Type', 'application/manifest+json');
    },
  });
  const missing = readFileSync(join(folder, '404.html'));
  const server = createServer((request, response) => {
    try {
      if (request.method !== 'GET' && request.method !== 'HEAD') {
        response.writeHead(405, { Allow: 'GET, HEAD' }).end();
        return;
      }
      // A path that cannot be decoded is no page; sirv would throw.
      decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
      files(request, response, () => {
        response.writeHead(404, { ...headers, 'Content-Type': 'text/html; charset=utf-8' });
        response.end(request.method === 'HEAD' ? undefined : missing);
      });
    } catch {
      response.writeHead(400, { 'Content-Type': 'text/plain; charset=utf-8' }).end('This is no address.\n');
    }
  });
  server.headersTimeout = 10_000;
  server.requestTimeout = 30_000;
  await listening(server, port);
  const address = server.address() as { port: number };
  return {
    address: `http://localhost:${address.port}/`,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeIdleConnections();
        setTimeout(() => server.closeAllConnections(), 2000).unref();
      }),
  };
}

async function listening(server: Server, port: number): Promise<void> {
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) =>
      reject(error.code === 'EADDRINUSE' ? new PortInUse(`Port ${port} is in use.`) : error),
    );
    server.listen(port, loopback, resolve);
  });
}

/** Whether a server could listen on the port now. */
export async function portIsFree(port: number): Promise<boolean> {
  const server = createServer();
  try {
    await listening(server, port);
    await new Promise((resolve) => server.close(resolve));
    return true;
  } catch (error) {
    if (error instanceof PortInUse) return false;
    throw error;
  }
}
