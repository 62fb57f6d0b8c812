/** A static server for the built site: `send` behind node:http, on the loopback address. */
import { existsSync, readFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { extname, join } from 'node:path';
import send from 'send';
import { twinTypes } from '../build/compress.ts';

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

/** How long a client may take, milliseconds. */
export interface Patience {
  /** To send the head of a request. */
  readonly head: number;
  /** To send the whole request. */
  readonly request: number;
  /** Without a byte in either direction. */
  readonly silence: number;
}
const usualPatience: Patience = { head: 10_000, request: 30_000, silence: 30_000 };

/**
 * Serves `folder` on `port` (0: any free one). Hashed files are kept for a year, everything else is asked for anew. Files are
 * looked up at each request, so that a build may replace the folder meanwhile.
 * @throws PortInUse
 */
export async function startServer(
  folder: string,
  port: number,
  patience = usualPatience,
): Promise<{ readonly address: string; readonly stop: () => Promise<void> }> {
  const headers = sharedHeaders(folder);
  const missing = readFileSync(join(folder, '404.html'));
  const server = createServer({ connectionsCheckingInterval: Math.min(1000, patience.head) }, async (request, response) => {
    for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      response.writeHead(405, { Allow: 'GET, HEAD' }).end();
      return;
    }
    const path = pathOf(request);
    const status = path === null ? 400 : await sent(folder, path, request, response);
    if (status === 400) response.writeHead(400, { 'Content-Type': 'text/plain; charset=utf-8' }).end('This is no address.\n');
    else if (status !== null) {
      response.writeHead(404, {
        'Content-Type': 'text/html; charset=utf-8',
        'Content-Length': missing.length,
        'Cache-Control': 'no-cache',
      });
      response.end(request.method === 'HEAD' ? undefined : missing);
    }
  });
  server.headersTimeout = patience.head;
  server.requestTimeout = patience.request;
  server.timeout = patience.silence;
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

/** The path as it was sent, still encoded; null when it is none. */
function pathOf({ url = '/' }: IncomingMessage): string | null {
  try {
    const path = url.startsWith('/') ? url.replace(/[?#].*$/s, '') : new URL(url).pathname;
    decodeURIComponent(path);
    return path;
  } catch {
    return null;
  }
}

const encodings = [
  ['br', '.br'],
  ['gzip', '.gz'],
] as const;

/** Whether a client takes an encoding: RFC 9110, 12.5.3, apart from the order of preference. */
const takes = (accepted: string, encoding: string): boolean =>
  accepted.split(',').some((entry) => {
    const [name, weight = 'q=1'] = entry.split(';').map((piece) => piece.trim().toLowerCase());
    return name === encoding && Number(weight.replace('q=', '')) > 0;
  });

/** Sends the smallest twin that the client takes, else the file itself. Null when it is answered, else the status of why not. */
async function sent(folder: string, path: string, request: IncomingMessage, response: ServerResponse): Promise<number | null> {
  const file = path.endsWith('/') ? `${path}index.html` : path;
  const type = twinTypes[extname(file)];
  response.setHeader('Cache-Control', /^\/assets\/.*\.[\w-]{8}\.\w+$/.test(path) ? 'public, max-age=31536000, immutable' : 'no-cache');
  if (type) response.setHeader('Vary', 'Accept-Encoding').setHeader('Content-Type', type);
  const accepted = String(request.headers['accept-encoding'] ?? '');
  for (const [encoding, ending] of type ? encodings : []) {
    if (!takes(accepted, encoding)) continue;
    response.setHeader('Content-Encoding', encoding);
    if ((await sentFile(folder, `${file}${ending}`, request, response)) === null) return null;
    response.removeHeader('Content-Encoding');
  }
  return sentFile(folder, path, request, response);
}

const sentFile = (root: string, path: string, request: IncomingMessage, response: ServerResponse): Promise<number | null> =>
  new Promise((resolve) => {
    response.once('close', () => resolve(null));
    response.once('finish', () => resolve(null));
    send(request, path, { root, cacheControl: false, dotfiles: 'ignore', index: 'index.html' })
      .on('error', ({ status, headers = {} }: { status: number; headers?: Record<string, string> }) => {
        // A file that fails while it is sent: half of it is no answer.
        if (response.headersSent) response.destroy();
        else if (status === 416 || status === 412) response.writeHead(status, headers).end();
        else resolve(status);
      })
      .pipe(response);
  });

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
