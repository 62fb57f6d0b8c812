import { get, request } from 'node:http';
import { connect } from 'node:net';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { PortInUse, startServer } from '../../scripts/serve/server.ts';
import { builtSite } from '../browser.ts';

let address: string;
let stop: () => Promise<void>;
beforeAll(async () => {
  ({ address, stop } = await startServer(builtSite, 0));
});
afterAll(() => stop());

interface Reply {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly bytes: Buffer;
}
/** Sends a path as it is, which `fetch` would tidy. */
const ask = (path: string, headers: Record<string, string> = {}, method = 'GET'): Promise<Reply> =>
  new Promise((resolve, reject) => {
    const { port } = new URL(address);
    const sent = request({ host: '127.0.0.1', port, path, headers, method }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () => resolve({ status: response.statusCode!, headers: response.headers, bytes: Buffer.concat(parts) }));
    });
    sent.on('error', reject);
    sent.end();
  });

describe('the server', () => {
  test('listens on this machine only', () => {
    expect(new URL(address).hostname).toBe('localhost');
  });

  test('sends types, compression and the headers of the static host', async () => {
    const page = await ask('/codes/p0301/', { 'Accept-Encoding': 'br' });
    expect(page.status).toBe(200);
    expect(page.headers['content-type']).toMatch(/^text\/html/);
    expect(page.headers['content-encoding']).toBe('br');
    expect(page.headers['cache-control']).toBe('no-cache');
    expect(page.headers['x-content-type-options']).toBe('nosniff');
    expect(page.headers['referrer-policy']).toBe('no-referrer');
    expect(page.headers['permissions-policy']).toContain('geolocation=()');
    expect(page.headers['content-security-policy']).toContain("frame-ancestors 'none'");
    expect((await ask('/manifest.webmanifest')).headers['content-type']).toMatch(/^application\/manifest\+json/);
    expect((await ask('/codes/p0301/', { 'Accept-Encoding': 'gzip' })).headers['content-encoding']).toBe('gzip');
  });

  test('keeps hashed files for a year', async () => {
    const html = (await ask('/')).bytes.toString();
    const style = html.match(/href="(\/assets\/[^"]+\.css)"/)![1]!;
    expect((await ask(style)).headers['cache-control']).toContain('immutable');
  });

  test('answers a wrong address with the page that helps, and status 404', async () => {
    const reply = await ask('/codes/p9999/');
    expect(reply.status).toBe(404);
    expect(reply.bytes.toString()).toContain('There is no page at this address');
  });

  test.each(['/../package.json', '/..%2f..%2fpackage.json', '/%2e%2e/package.json', '/codes/%00', '//etc/passwd', '/.git/config'])(
    'gives nothing outside the site for %s',
    async (path) => {
      const reply = await ask(path);
      expect([400, 404]).toContain(reply.status);
      expect(reply.bytes.toString()).not.toContain('"lampwise"');
    },
  );

  test('survives a path that is no text', async () => {
    expect((await ask('/%E0%A4%A')).status).toBe(400);
    expect((await ask('/')).status).toBe(200);
  });

  test('answers ranges, and refuses those beyond the file', async () => {
    const part = await ask('/icon-512.png', { Range: 'bytes=0-9' });
    expect(part.status).toBe(206);
    expect(part.bytes).toHaveLength(10);
    expect((await ask('/icon-512.png', { Range: 'bytes=99999999-' })).status).toBe(416);
  });

  test('takes no other method', async () => {
    expect((await ask('/', {}, 'POST')).status).toBe(405);
  });

  test('answers two hundred at once, with a slow client among them', async () => {
    const slow = connect(Number(new URL(address).port), '127.0.0.1');
    slow.write('GET / HTTP/1.1\r\nHost: a\r\n');
    const replies = await Promise.all(Array.from({ length: 200 }, () => ask('/codes/p0301/')));
    expect(replies.every(({ status }) => status === 200)).toBe(true);
    slow.destroy();
  });

  test('says so when the port is in use', async () => {
    await expect(startServer(builtSite, Number(new URL(address).port))).rejects.toThrow(PortInUse);
  });

  test('stops although a client keeps its connection', async () => {
    const other = await startServer(builtSite, 0);
    await new Promise<void>((resolve) => {
      get(other.address.replace('localhost', '127.0.0.1'), (response) => response.resume().on('end', () => resolve()));
    });
    const before = performance.now();
    await other.stop();
    expect(performance.now() - before).toBeLessThan(5000);
  });
});
