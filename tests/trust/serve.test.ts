/** The server at its edges; what it sends for the built site is in tests/pages/server.test.ts. */
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { brotliDecompressSync, gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { compressFiles } from '../../scripts/build/compress.ts';
import { startServer } from '../../scripts/serve/server.ts';

const script = '/assets/page.Ab3_xY-9.js';
const bytes = Buffer.from(Array.from({ length: 1000 }, (_, index) => index % 251));
const page = `<!doctype html><title>A</title>${'<p>Words that compress well.'.repeat(100)}`;

function writeSite(folder: string): void {
  mkdirSync(join(folder, 'assets'), { recursive: true });
  mkdirSync(join(folder, 'a'));
  writeFileSync(join(folder, 'index.html'), page);
  writeFileSync(join(folder, 'a/index.html'), page);
  writeFileSync(join(folder, '404.html'), '<!doctype html><title>None</title><p>No such page.');
  writeFileSync(join(folder, script), `export const words = ${JSON.stringify('word '.repeat(400))};`);
  writeFileSync(join(folder, 'bytes.bin'), bytes);
  writeFileSync(join(folder, 'large.bin'), Buffer.alloc(30_000_000, 7));
  writeFileSync(join(folder, '.hidden'), 'hidden');
  writeFileSync(join(folder, '_headers'), '/*\n  X-Content-Type-Options: nosniff\n');
}

let above: string;
let folder: string;
let port: number;
let stop: () => Promise<void>;
beforeAll(async () => {
  above = mkdtempSync(join(tmpdir(), 'lampwise-serve-'));
  folder = join(above, 'site');
  writeSite(folder);
  writeFileSync(join(above, 'outside.txt'), 'outside');
  await compressFiles(folder);
  const server = await startServer(folder, 0, { head: 500, request: 1000, silence: 1500 });
  port = Number(new URL(server.address).port);
  stop = server.stop;
});
afterAll(async () => {
  await stop();
  rmSync(above, { recursive: true, force: true });
});

interface Reply {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly bytes: Buffer;
}
/** Sends a path as it is, which `fetch` would tidy. */
const ask = (path: string, headers: Record<string, string> = {}, method = 'GET', to = port): Promise<Reply> =>
  new Promise((resolve, reject) => {
    const sent = request({ host: '127.0.0.1', port: to, path, headers, method }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () => resolve({ status: response.statusCode!, headers: response.headers, bytes: Buffer.concat(parts) }));
      response.on('error', reject);
    });
    sent.on('error', reject);
    sent.end();
  });
const alive = async () => expect((await ask('/')).status).toBe(200);

describe('ranges (RFC 9110, section 14)', () => {
  test.each([
    ['the first byte', 'bytes=0-0', 0, 1],
    ['a part', 'bytes=10-19', 10, 20],
    ['from a place on', 'bytes=990-', 990, 1000],
    ['the last five', 'bytes=-5', 995, 1000],
    ['up to beyond the end', 'bytes=998-4000', 998, 1000],
  ])('%s', async (_, range, from, to) => {
    const reply = await ask('/bytes.bin', { Range: range });
    expect(reply.status).toBe(206);
    expect(reply.headers['content-range']).toBe(`bytes ${from}-${to - 1}/1000`);
    expect(reply.bytes).toEqual(bytes.subarray(from, to));
  });

  test.each(['bytes=1000-', 'bytes=5-2', 'bytes=-0'])('%s cannot be satisfied, and harms nobody', async (range) => {
    const reply = await ask('/bytes.bin', { Range: range });
    expect(reply.status).toBe(416);
    expect(reply.headers['content-range']).toBe('bytes */1000');
    await alive();
  });

  test.each(['items=0-1', 'bytes=a-b', 'bytes', ''])('"%s" is none: the whole file comes', async (range) => {
    const reply = await ask('/bytes.bin', { Range: range });
    expect(reply.status).toBe(200);
    expect(reply.bytes).toEqual(bytes);
  });
});

describe('what is sent', () => {
  test('the twin that the client takes, with the type of the file itself', async () => {
    for (const path of ['/', '/a/', script]) {
      const plain = await ask(path);
      const brotli = await ask(path, { 'Accept-Encoding': 'gzip, br' });
      const zipped = await ask(path, { 'Accept-Encoding': 'gzip;q=0.5, br;q=0' });
      expect(plain.headers['content-encoding']).toBeUndefined();
      expect([brotli, zipped].map(({ headers }) => headers['content-encoding'])).toEqual(['br', 'gzip']);
      expect(brotliDecompressSync(brotli.bytes)).toEqual(plain.bytes);
      expect(gunzipSync(zipped.bytes)).toEqual(plain.bytes);
      for (const { headers } of [plain, brotli, zipped]) {
        expect(headers['content-type']).toBe(path === script ? 'text/javascript; charset=utf-8' : 'text/html; charset=utf-8');
        expect(headers['vary']).toBe('Accept-Encoding');
        expect(headers['x-content-type-options']).toBe('nosniff');
      }
    }
  });

  test('only hashed files are kept; others are asked for anew, and not sent again when they are the same', async () => {
    expect((await ask(script)).headers['cache-control']).toBe('public, max-age=31536000, immutable');
    const first = await ask('/');
    expect(first.headers['cache-control']).toBe('no-cache');
    const again = await ask('/', { 'If-None-Match': String(first.headers['etag']) });
    expect(again.status).toBe(304);
    expect(again.bytes).toHaveLength(0);
    const other = await ask('/', { 'If-None-Match': String(first.headers['etag']), 'Accept-Encoding': 'br' });
    expect(other.status).toBe(200);
  });

  test('to HEAD the same head, and nothing more', async () => {
    for (const path of ['/', '/bytes.bin', '/none/']) {
      const got = await ask(path);
      const head = await ask(path, {}, 'HEAD');
      expect(head.status).toBe(got.status);
      expect(head.headers['content-length']).toBe(String(got.bytes.length));
      expect(head.headers['content-type']).toBe(got.headers['content-type']);
      expect(head.bytes).toHaveLength(0);
    }
  });

  test('a folder without its slash leads to the folder', async () => {
    const reply = await ask('/a');
    expect(reply.status).toBe(301);
    expect(reply.headers['location']).toBe('/a/');
  });

  test.each(['POST', 'PUT', 'DELETE', 'OPTIONS', 'TRACE', 'PATCH'])('nothing to %s', async (method) => {
    const reply = await ask('/', {}, method);
    expect(reply.status).toBe(405);
    expect(reply.headers['allow']).toBe('GET, HEAD');
  });
});

describe('bad paths', () => {
  test.each([
    '/../outside.txt',
    '/%2e%2e/outside.txt',
    '/..%2foutside.txt',
    '/a/..%5c..%5coutside.txt',
    '/a/%2e%2e/%2e%2e/outside.txt',
    '//outside.txt',
    '/....//outside.txt',
    '/.hidden',
    '/%2ehidden',
    '/constructor',
    '/__proto__',
    '/index.html/',
    '/none/?a=%',
    `/${'a'.repeat(4000)}`,
  ])('%s is no page', async (path) => {
    const reply = await ask(path);
    expect(reply.status).toBe(404);
    expect(reply.headers['cache-control']).toBe('no-cache');
    expect(reply.bytes.toString()).toContain('No such page.');
  });

  test.each(['/%', '/%E0%A4%A', '/a%00b', '/%00', '/%ff', '*', 'http://['])('%s is no address', async (path) => {
    expect((await ask(path)).status).toBe(400);
    await alive();
  });

  test('twenty thousand characters are too many', async () => {
    expect((await ask(`/${'a'.repeat(20_000)}`)).status).toBe(431);
    await alive();
  });

  test('what is no HTTP is refused', async () => {
    const answer = await new Promise<string>((resolve) => {
      const socket = connect(port, '127.0.0.1');
      let text = '';
      socket.on('data', (part) => (text += part.toString())).on('close', () => resolve(text));
      socket.write('\u0016\u0003\u0001 hello\r\n\r\n');
    });
    expect(answer).toContain('400');
    await alive();
  });
});

describe('hard times', () => {
  /** Milliseconds until the server ends a connection on which `start` was sent and nothing more is done. */
  const ended = (start: string, read: boolean) =>
    new Promise<number>((resolve) => {
      const from = performance.now();
      const socket = connect(port, '127.0.0.1');
      socket.on('error', () => {}).on('close', () => resolve(performance.now() - from));
      if (read) socket.resume();
      socket.write(start);
    });

  test('a client that never ends its request is let go', async () => {
    expect(await ended('GET / HTTP/1.1\r\nHost: a\r\nX-', true)).toBeLessThan(8000);
    await alive();
  });

  test('so is one that asks for a large file and does not take it', { timeout: 20_000 }, async () => {
    const socket = connect(port, '127.0.0.1');
    const closed = new Promise((resolve) => socket.on('error', () => {}).on('close', resolve));
    socket.write('GET /large.bin HTTP/1.1\r\nHost: a\r\n\r\n');
    await new Promise((resolve) => setTimeout(resolve, 4000));
    // Only what lay in the buffers of the connection comes now.
    let taken = 0;
    socket.on('data', (part) => {
      taken += part.length;
    });
    await closed;
    expect(taken).toBeLessThan(30_000_000);
  });

  test('two hundred at once all get the whole page, and the memory for it stays small', { timeout: 30_000 }, async () => {
    const before = process.memoryUsage().rss;
    const replies = await Promise.all(Array.from({ length: 200 }, () => ask('/', { 'Accept-Encoding': 'br' })));
    expect(replies.filter(({ status, bytes: body }) => status === 200 && brotliDecompressSync(body).toString() === page)).toHaveLength(200);
    expect((process.memoryUsage().rss - before) / 1e6).toBeLessThan(200);
  });

  test('a site that is replaced meanwhile is served anew, and a file that is gone is no page', async () => {
    const next = join(above, 'next');
    writeSite(next);
    rmSync(join(next, 'bytes.bin'));
    writeFileSync(join(next, 'index.html'), '<!doctype html><title>New</title><p>A newer build.');
    renameSync(folder, join(above, 'before'));
    renameSync(next, folder);
    const home = await ask('/');
    expect(home.bytes.toString()).toContain('A newer build.');
    expect(home.headers['content-length']).toBe(String(home.bytes.length));
    expect((await ask('/bytes.bin')).status).toBe(404);
    await alive();
    rmSync(folder, { recursive: true });
    renameSync(join(above, 'before'), folder);
  });
});

describe('npm run serve', () => {
  /** Runs the command; resolves with all that it wrote and its exit code. `when` acts on what it says. */
  const serve = (given: readonly string[], when: (said: string, child: ReturnType<typeof spawn>) => void = () => {}) =>
    new Promise<{ code: number | null; out: string; err: string }>((resolve) => {
      const child = spawn(process.execPath, ['scripts/serve.ts', '--folder', folder, ...given], { env: { ...process.env, PORT: '' } });
      onTestFinished(() => void child.kill('SIGKILL'));
      let out = '';
      let err = '';
      child.stdout.on('data', (part: Buffer) => {
        out += part.toString();
        when(out, child);
      });
      child.stderr.on('data', (part: Buffer) => (err += part.toString()));
      child.on('close', (code) => resolve({ code, out, err }));
    });

  test.each(['SIGTERM', 'SIGINT'] as const)('stops cleanly on %s, although a connection is kept open', async (signal) => {
    let asked = false;
    const { code, out, err } = await serve(['--port', '0'], (said, child) => {
      const found = said.match(/http:\/\/localhost:(\d+)\//);
      if (!found || asked) return;
      asked = true;
      const kept = connect(Number(found[1]), '127.0.0.1').on('error', () => {});
      kept.write('GET / HTTP/1.1\r\nHost: a\r\n\r\n');
      kept.once('data', () => child.kill(signal));
    });
    expect(asked).toBe(true);
    expect(code).toBe(0);
    expect(err).toBe('');
    expect(out).toMatch(/^Lampwise is at http:\/\/localhost:\d+\/ {2}\(Ctrl\+C stops it\)\n$/);
  });

  test('names a port that is taken, and how to take another', async () => {
    const { code, out, err } = await serve(['--port', String(port)]);
    expect(code).toBe(1);
    expect(out).toBe('');
    expect(err).toBe(`Port ${port} is in use by another program. Stop it, or choose another: npm start -- --port ${port + 1}\n`);
  });

  test.each([
    [['--port', '99999'], '--port 99999 is not a port: a whole number from 0 to 65535 (0 takes any free one).'],
    [['--port', '80a'], '--port 80a is not a port'],
    [['--port', '-1'], '--port'],
    [['--port', ''], '--port'],
    [['--prot', '80'], "Unknown option '--prot'"],
    [['--folder', '/no/such/folder'], 'There is no site in /no/such/folder'],
  ])('%s is wrong use', async (given, says) => {
    const { code, err } = await serve(given);
    expect(code).toBe(2);
    expect(err).toContain(says);
    expect(err).not.toContain('    at ');
  });
});
